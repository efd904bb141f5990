package org.diesurvey.cli;

import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.concurrent.Callable;
import org.diesurvey.estimates.DieEstimator;
import org.diesurvey.files.ReadFiles;
import org.diesurvey.pipeline.DieSegmenter;
import org.diesurvey.pipeline.PhotoOptions;
import org.diesurvey.pipeline.ScaleInput;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Surveys photographs. */
@Command(
    name = "segment",
    description = {
      "Surveys photographs: finds the die, its memory arrays, hard macros, logic and pad ring, and"
          + " writes one folder per photograph.",
      ""
    },
    sortOptions = false,
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:all photographs were surveyed",
      "1:some photographs were rejected, the others are done",
      "2:wrong call, nothing was done",
      "70:a fault of this program"
    },
    footer = {
      "",
      "Scale: areas in mm2 need the pixel pitch. An error of 1 %% in the pitch is an error of 2 %%"
          + " in every area, so measure it with a stage micrometer under the same objective, camera"
          + " and zoom, and state its uncertainty. If nothing is stated, a scale in the file's own"
          + " tags is used with a warning; tags above 20 um/px (such as 72 or 300 dpi) are never a"
          + " microscope's and count as no scale. Without a scale you get regions and shares, no"
          + " areas.",
      "",
      "A calibration file for --scale:",
      "  {\"format\": \"diesurvey-calibration\", \"format_version\": 1, \"um_per_px\": 0.5,",
      "   \"standard_uncertainty_um_per_px\": 0.002, \"objective\": \"20x\", \"method\": \"stage"
          + " micrometer\"}",
      "",
      "Output, in DIR/<photo name without extension>/:",
      "  report.html         the page to read: picture, table, chart, warnings, provenance",
      "  report.pdf          the same for archives, with --pdf",
      "  survey.json         everything, with its JSON Schema in the library",
      "  overlay.png         the photograph with the regions drawn on it",
      "  label-map.png       0 off-die, 1 memory array, 2 hard macro, 3 logic, 4 pad ring, 255"
          + " unclear",
      "  classes.png         the same in the colours of the legend, to look at",
      "  confidence-map.png  0 to 255 for a confidence of 0 to 1",
      "  regions.csv         one row per region",
      "  regions.geojson     outlines in um, origin at the lower left die corner",
      "A folder appears complete or not at all. An earlier survey in it is replaced; files of your"
          + " own in it stay, and one that you changed is never replaced. Of two photographs with"
          + " the same name the second is rejected.",
      "",
      "Examples:",
      "  diesurvey segment die.tif --um-per-px 0.5+-0.002 --out surveys",
      "  diesurvey segment tray/*.png --scale objective-20x.json --out surveys",
      "  diesurvey segment die.jpg --die-size 2.10x1.70 --node 130 --out surveys",
      "  diesurvey segment tray/*.png --um-per-px 0.5 --out surveys --json > outcomes.jsonl",
      "  diesurvey segment tray.png --die 2 --flat-field empty.png --um-per-px 0.5 --out surveys",
      "",
      "Results are estimates from a picture: check them by eye before you rely on them."
    })
final class SegmentCommand implements Callable<Integer> {
  @Parameters(
      paramLabel = "PHOTO",
      arity = "1..*",
      description = "PNG, JPEG or TIFF photographs of bare, delayered dies.")
  private List<Path> photos;

  @Option(
      names = "--out",
      required = true,
      paramLabel = "DIR",
      description = "Folder for the surveys; made if it is not there.")
  private Path out;

  @Mixin private ScaleOptions scale;

  @Mixin private DensityOptions densities;

  @Mixin private PhotoStatements statements;

  @Mixin private ModelOptions model;

  @Option(names = "--pdf", description = "Also write report.pdf, the report as PDF for archives.")
  private boolean pdf;

  @Option(names = "--quiet", description = "No progress, no tables; rejections are still told.")
  private boolean quiet;

  @Option(
      names = "--json",
      description = "One line of JSON for each photograph on standard output instead of tables.")
  private boolean json;

  private final Diesurvey root;

  SegmentCommand(Diesurvey root) {
    this.root = root;
  }

  @Override
  public Integer call() {
    ScaleInput stated = scale.stated();
    PhotoOptions known = statements.options();
    Instant created = Created.moment(root.terminal());
    DieEstimator estimator = densities.estimator();
    DieSegmenter segmenter = model.segmenter().with(estimator);
    if (densities.nodeNm().isPresent()) {
      segmenter = segmenter.with(segmenter.settings().withNodeNm(densities.nodeNm().getAsDouble()));
    }
    ReadFiles read =
        ReadFiles.of(photos)
            .and(Stated.files(model.file(), scale.file(), densities.file()))
            .and(Stated.files(statements.flatField()));
    boolean made = SurveyFolders.prepare(out);
    SurveyFolders folders = new SurveyFolders(out, read);
    folders.requireFree(photos);
    OutcomePrinter printer = new OutcomePrinter(root, quiet, json);
    try {
      PhotoRun run = new PhotoRun(segmenter, stated, scale.mayUseTag(), known, created, pdf, read);
      Progress progress = root.progress(quiet, photos.size());
      for (Path photo : photos) {
        SurveyFolders.Place place = folders.place(photo);
        PhotoOutcome outcome = run.survey(place, progress);
        if (outcome instanceof PhotoOutcome.Surveyed) {
          folders.taken(place);
        }
        printer.tell(outcome);
      }
    } finally {
      if (made) {
        SurveyFolders.removeIfEmpty(out);
      }
    }
    if (photos.size() > 1 && !quiet) {
      root.terminal()
          .remark(photos.size() - printer.photosLost() + " of " + photos.size() + " surveyed");
    }
    return printer.exitCode();
  }
}
