package org.diesurvey.cli;

import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.concurrent.Callable;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.files.ReadFiles;
import org.diesurvey.pipeline.PhotoOptions;
import org.diesurvey.pipeline.ScaleInput;
import org.diesurvey.synthetic.DemoDie;
import org.diesurvey.synthetic.DieFiles;
import org.diesurvey.synthetic.DrawnDie;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** Draws an invented die and surveys it. */
@Command(
    name = "demo",
    description = {
      "Draws an invented die, photographs it, surveys the photograph and shows what came out. Needs"
          + " no input and takes less than a minute.",
      ""
    },
    footer = {
      "",
      "The truth of the drawn die lies beside its photograph; compare with:",
      "  diesurvey score out/demo/demo-die.json --surveys out/demo"
    })
final class DemoCommand implements Callable<Integer> {
  private static final String NAME = "demo-die";

  /** Standard uncertainty of the demo's pixel pitch, relative: a careful stage micrometer. */
  private static final double PITCH_UNCERTAINTY = 0.002;

  @Option(
      names = "--out",
      paramLabel = "DIR",
      defaultValue = "out/demo",
      description = "Folder for the photograph and its survey; ${DEFAULT-VALUE} by default.")
  private Path out;

  @Mixin private ModelOptions model;

  @Option(names = "--quiet", description = "No progress and no table.")
  private boolean quiet;

  private final Diesurvey root;

  DemoCommand(Diesurvey root) {
    this.root = root;
  }

  @Override
  public Integer call() {
    Instant created = Created.moment(root.terminal());
    var segmenter = model.segmenter();
    DrawnFiles.require(out, NAME, DieFiles.Format.JPG);
    SurveyFolders.prepare(out);
    SurveyFolders folders = new SurveyFolders(out);
    folders.requireFree(List.of(Path.of(NAME + ".jpg")));
    if (!quiet) {
      root.terminal().remark("drawing the demo die");
    }
    DrawnDie die = DemoDie.draw();
    Path photo = DrawnFiles.write(die, out, NAME, DieFiles.Format.JPG);
    double pitch = die.truth().umPerPx();
    ScaleInput scale =
        new ScaleInput.Known(Calibration.ofPixelPitch(pitch, PITCH_UNCERTAINTY * pitch));
    OutcomePrinter printer = new OutcomePrinter(root, quiet, false);
    Progress progress = root.progress(quiet, 1);
    segmenter = segmenter.with(segmenter.settings().withNodeNm(die.truth().nodeNm()));
    PhotoRun run =
        new PhotoRun(
            segmenter,
            scale,
            false,
            PhotoOptions.NONE,
            created,
            false,
            ReadFiles.of(List.of(photo)));
    printer.tell(run.survey(folders.place(photo), progress));
    return printer.exitCode();
  }
}
