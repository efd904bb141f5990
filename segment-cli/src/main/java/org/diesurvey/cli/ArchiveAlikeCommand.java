package org.diesurvey.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.diesurvey.archive.query.ArchiveTable;
import org.diesurvey.archive.query.LayoutSearch;
import org.diesurvey.pipeline.ScaleInput;
import org.diesurvey.survey.Survey;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Finds likely revisions of a die in an archive. */
@Command(
    name = "alike",
    description = {
      "Prints the archived surveys whose layout is most like that of a photograph or survey, as"
          + " CSV: likely earlier revisions.",
      ""
    },
    sortOptions = false,
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:the surveys were printed",
      "2:wrong call, or the photograph, survey or archive cannot be used",
      "70:a fault of this program"
    },
    footer = {
      "",
      "The classes at 32 x 32 places of both dies are compared in all eight orientations. A score"
          + " of 1 means the same everywhere, 0 what chance gives; different dies can reach 0.6,"
          + " and revisions whose edges were missed fall far below. The order counts, not the"
          + " score: let compare decide. Surveys of the same photograph are left out.",
      "",
      "Examples:",
      "  diesurvey archive alike archive die.tif --um-per-px 0.5",
      "  diesurvey archive alike archive surveys/die --most 10"
    })
final class ArchiveAlikeCommand implements Callable<Integer> {
  private static final int LARGEST = 1000;

  @Parameters(index = "0", paramLabel = "DIR", description = "Folder of the archive.")
  private Path archive;

  @Parameters(
      index = "1",
      paramLabel = "REVISION",
      description = "Photograph, folder of a survey, or its survey.json.")
  private Path given;

  @Option(
      names = "--most",
      paramLabel = "N",
      defaultValue = "5",
      description = "How many surveys, 1 to 1000; ${DEFAULT-VALUE} by default.")
  private int most;

  @Mixin private RevisionScales scales;

  @Mixin private ModelOptions model;

  private final Diesurvey root;

  ArchiveAlikeCommand(Diesurvey root) {
    this.root = root;
  }

  @Override
  public Integer call() {
    if (most < 1 || most > LARGEST) {
      throw new WrongOption("--most", "must be a number from 1 to 1000, was " + most);
    }
    Revision revision = Revision.of(given);
    List<ScaleInput> stated = scales.of(revision.isPhotograph() ? 1 : 0);
    Survey survey =
        revision.survey(
            model.segmenter(),
            stated.isEmpty() ? ScaleInput.NONE : stated.get(0),
            scales.mayUseTag(),
            root.progress(true, 1));
    ArchiveTable found = LayoutSearch.table(LayoutSearch.alike(archive, survey, most));
    root.terminal().out().print(root.terminal().shown(found.csv()));
    root.terminal().out().flush();
    root.terminal().remark(found.rows().size() + (found.rows().size() == 1 ? " row" : " rows"));
    return ExitCode.DONE;
  }
}
