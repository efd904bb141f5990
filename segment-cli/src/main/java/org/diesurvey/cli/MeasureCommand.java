package org.diesurvey.cli;

import java.nio.file.Path;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.diesurvey.classification.model.TileClassifier;
import org.diesurvey.files.ReadFiles;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.pipeline.DieMeasurer;
import org.diesurvey.pipeline.HandOutlines;
import org.diesurvey.pipeline.PhotoScale;
import org.diesurvey.pipeline.ScaleInput;
import org.diesurvey.pipeline.SegmentSettings;
import org.diesurvey.report.SurveyFolder;
import org.diesurvey.survey.Survey;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Measures outlines that a person drew. */
@Command(
    name = "measure",
    description = {
      "Measures outlines that you drew or corrected: areas, periods, bits and gates, without"
          + " classifying. Writes the same folder as segment.",
      ""
    },
    sortOptions = false,
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:the outlines were measured",
      "2:the call, the photograph or the outlines cannot be used, nothing was written",
      "70:a fault of this program"
    },
    footer = {
      "",
      "Outlines: any kind that export writes, or survey.json; the content decides, not the name."
          + " The photograph must be the one they were drawn on. In GeoJSON each feature is a"
          + " polygon with the properties",
      "  id           a short name of its own",
      "  class        memory array, hard macro, logic, pad ring or unclear",
      "  kind         \"region\", or \"bit-cell array\" with part_of, the id of its memory array",
      "  ports        1 or 2, of a memory array, if you know",
      "  memory_kind  static, rom, dynamic or flash; static by default",
      "The member coordinate_frame says um from the lower left die corner (y up) or px of the"
          + " photograph (y down). Outlines must not cross themselves, overlap or leave the die.",
      "",
      "Example:",
      "  diesurvey measure die.tif --outlines surveys/die/regions.geojson --um-per-px 0.5+-0.002"
          + " --node 130 --out measured",
      "",
      "Bits and gates are estimates; their intervals are part of the result."
    })
final class MeasureCommand implements Callable<Integer> {
  @Parameters(
      paramLabel = "PHOTO",
      description = "PNG, JPEG or TIFF photograph of a bare, delayered die.")
  private Path photo;

  @Option(
      names = "--outlines",
      required = true,
      paramLabel = "FILE",
      description = "Outlines to measure: GeoJSON, SVG, GDSII, annotations or survey.json.")
  private Path outlines;

  @Option(
      names = "--out",
      required = true,
      paramLabel = "DIR",
      description = "Folder for the survey; made if it is not there.")
  private Path out;

  @Mixin private ScaleOptions scale;

  @Mixin private DensityOptions densities;

  @Option(names = "--quiet", description = "No table.")
  private boolean quiet;

  @Option(
      names = "--json",
      description = "One line of JSON on standard output instead of the table.")
  private boolean json;

  private final Diesurvey root;

  MeasureCommand(Diesurvey root) {
    this.root = root;
  }

  @Override
  public Integer call() {
    ScaleInput stated = scale.stated();
    HandOutlines drawn = HandOutlines.read(outlines);
    SegmentSettings settings = SegmentSettings.defaults();
    DieMeasurer measurer =
        new DieMeasurer(
            densities.nodeNm().isPresent()
                ? settings.withNodeNm(densities.nodeNm().getAsDouble())
                : settings,
            densities.estimator(),
            TileClassifier.programVersion());
    ReadFiles read =
        ReadFiles.of(List.of(photo, outlines)).and(Stated.files(scale.file(), densities.file()));
    SurveyFolders folders = new SurveyFolders(out, read);
    folders.requireFree(List.of(photo));
    Instant created = Created.moment(root.terminal());
    OutcomePrinter printer = new OutcomePrinter(root, quiet, json);
    Progress progress = root.progress(quiet, 1);
    progress.begin(String.valueOf(photo.getFileName()));
    Map<String, Double> seconds = new LinkedHashMap<>();
    long start = System.nanoTime();
    try (DiePhoto opened = DiePhoto.open(photo)) {
      progress.stageDone("open");
      PhotoScale used = PhotoScale.choose(stated, scale.mayUseTag(), opened.info());
      Survey survey = measurer.measure(opened, used.input(), drawn);
      survey = PhotoRun.with(survey, used.notice());
      seconds.put("measure", (System.nanoTime() - start) / 1e9);
      progress.stageDone("measures");
      boolean made = SurveyFolders.prepare(out);
      try {
        SurveyFolders.Place place = folders.place(photo);
        if (place.refusal().isPresent()) {
          throw place.refusal().get();
        }
        SurveyFolder.write(
            survey, opened.pixels(), place.folder(), created, false, read, (overlay, folder) -> {});
        progress.end("measured");
        printer.tell(new PhotoOutcome.Surveyed(photo, survey, place.folder(), seconds));
      } finally {
        if (made) {
          SurveyFolders.removeIfEmpty(out);
        }
      }
    }
    return printer.exitCode();
  }
}
