package org.diesurvey.cli;

import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.classification.model.TileClassifier;
import org.diesurvey.comparison.LayoutComparer;
import org.diesurvey.comparison.document.Change;
import org.diesurvey.comparison.document.Comparison;
import org.diesurvey.files.ReadFiles;
import org.diesurvey.files.ResultKind;
import org.diesurvey.files.WholeFolder;
import org.diesurvey.pipeline.DieSegmenter;
import org.diesurvey.pipeline.ScaleInput;
import org.diesurvey.report.ComparisonFolder;
import org.diesurvey.survey.Notice;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Compares revisions of a die. */
@Command(
    name = "compare",
    description = {
      "Compares revisions of a die: lays each photograph on the one before and tells which blocks"
          + " moved, grew, shrank, came, went, or changed their class or content.",
      ""
    },
    sortOptions = false,
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:every revision was compared with the next, whatever was found",
      "1:a revision could not be used, or has no layout in common with the next; the others are"
          + " done",
      "2:wrong call, nothing was done",
      "70:a fault of this program"
    },
    footer = {
      "",
      "A revision is a photograph, the folder of a survey, or its survey.json. The photograph of a"
          + " survey must be the one that was surveyed (same SHA-256); it is looked for in"
          + " --photos, beside the survey and in two folders above.",
      "",
      "The photographs may be turned by any angle near a multiple of 90 degrees, mirrored, and of"
          + " different sampling, light and focus. Without both scales everything is told in px of"
          + " the earlier photograph.",
      "",
      "Output of two revisions, in DIR:",
      "  comparison.html     the page to read: both photographs in one view, changes, figures",
      "  comparison.pdf      the same for archives, with --pdf",
      "  comparison.json     everything, with its JSON Schema in the library",
      "  changes.csv         one row for each change",
      "  changes.geojson     where it was and where it is, in um of the earlier die",
      "  earlier-survey.json, later-survey.json",
      "                      the surveys whose regions are named",
      "Of three or more: the same in DIR/1-2, DIR/2-3 and so on, and DIR/revisions.html and"
          + " revisions.csv over all. A folder appears complete or not at all; an earlier"
          + " comparison in it is replaced.",
      "",
      "Examples:",
      "  diesurvey compare a.tif b.tif --um-per-px 0.5+-0.002 --out a-to-b",
      "  diesurvey compare a.tif b.tif --um-per-px 0.5 --um-per-px 0.48 --out a-to-b",
      "  diesurvey compare surveys/a surveys/b surveys/c --photos tray --out revisions",
      "",
      "Results are estimates from pictures: look at each change yourself."
    })
final class CompareCommand implements Callable<Integer> {
  @Parameters(
      paramLabel = "REVISION",
      arity = "2..*",
      description = "Photographs or surveys, earliest first; at least two.")
  private List<Path> given;

  @Option(
      names = "--out",
      required = true,
      paramLabel = "DIR",
      description = "Folder for the comparison; made if it is not there.")
  private Path out;

  @Mixin private RevisionScales scales;

  @Option(
      names = "--photos",
      paramLabel = "DIR",
      description = "Folder in which photographs of surveys lie; may be given more than once.")
  private List<Path> folders = new ArrayList<>();

  @Mixin private DensityOptions densities;

  @Mixin private ModelOptions model;

  @Option(names = "--pdf", description = "Also write comparison.pdf, the page for archives.")
  private boolean pdf;

  @Option(names = "--quiet", description = "No progress, no changes; refusals are still told.")
  private boolean quiet;

  private final Diesurvey root;

  CompareCommand(Diesurvey root) {
    this.root = root;
  }

  @Override
  public Integer call() {
    List<Revision> revisions = given.stream().map(Revision::of).toList();
    List<ScaleInput> stated =
        scales.of((int) revisions.stream().filter(Revision::isPhotograph).count());
    Map<Integer, ScaleInput> scaleOf = new HashMap<>();
    for (int i = 0, n = 0; i < revisions.size(); i++) {
      scaleOf.put(i, revisions.get(i).isPhotograph() ? stated.get(n++) : ScaleInput.NONE);
    }
    ReadFiles read =
        ReadFiles.of(given)
            .and(revisions.stream().flatMap(r -> r.survey().stream()).toList())
            .and(scales.files())
            .and(Stated.files(model.file(), densities.file()));
    requireFree(read);
    DieSegmenter segmenter = segmenter();
    Instant created = Created.moment(root.terminal());
    Progress progress = root.progress(quiet, 2 * revisions.size() - 1);
    LayoutComparer comparer =
        new LayoutComparer(
            TileClassifier.programVersion(), model.threads(), segmenter.classifier());
    List<String> names = revisions.stream().map(Revision::name).toList();
    try (RevisionSteps steps =
        new RevisionSteps(
            revisions,
            (i, shown) ->
                revisions
                    .get(i)
                    .open(segmenter, scaleOf.get(i), scales.mayUseTag(), folders, shown),
            comparer,
            progress,
            model.threads())) {
      List<Optional<Comparison>> done;
      try {
        done = ComparisonFolder.write(names, steps, out, created, pdf, read);
      } catch (DieInputException e) {
        if (e.reason() == Reason.OUTPUT_NOT_WRITABLE) {
          throw e;
        }
        tell(steps);
        return ExitCode.SOME_REJECTED;
      }
      for (int i = 0; i < done.size(); i++) {
        if (done.get(i).isPresent() && !quiet) {
          tell(names.get(i), names.get(i + 1), done.get(i).get());
        }
      }
      if (!quiet) {
        String page = names.size() == 2 ? ComparisonFolder.PAGE : ComparisonFolder.OVERVIEW;
        root.terminal().result("page: " + out.resolve(page));
      }
      return tell(steps) ? ExitCode.SOME_REJECTED : ExitCode.DONE;
    }
  }

  /** Before anything is done: nothing in the way is somebody's. */
  private void requireFree(ReadFiles read) {
    Optional<DieInputException> refusal = WholeFolder.refusal(out, ResultKind.COMPARISON, read);
    if (refusal.isPresent()) {
      throw refusal.get();
    }
  }

  private DieSegmenter segmenter() {
    DieSegmenter segmenter = model.segmenter().with(densities.estimator());
    return densities.nodeNm().isPresent()
        ? segmenter.with(segmenter.settings().withNodeNm(densities.nodeNm().getAsDouble()))
        : segmenter;
  }

  /** Says what was refused; whether anything was. */
  private boolean tell(RevisionSteps steps) {
    steps
        .refusals()
        .forEach(
            e -> {
              root.terminal().remark("diesurvey: " + e.getMessage());
              root.trace(e);
            });
    return !steps.refusals().isEmpty();
  }

  private void tell(String earlier, String later, Comparison c) {
    Terminal terminal = root.terminal();
    int n = c.changes().size();
    terminal.result(
        terminal.strong(earlier + " -> " + later)
            + ": "
            + (n == 0
                ? "no change that stands out from the uncertainty"
                : n + (n == 1 ? " change" : " changes")));
    for (Change change : c.changes()) {
      terminal.result(
          String.format(
              java.util.Locale.ROOT,
              "  %-4s %-8s %s",
              change.id(),
              change.kind().id(),
              change.sentence()));
    }
    for (Notice notice : c.notices()) {
      terminal.result("  " + terminal.warning(notice.sentence()) + " " + notice.remedy());
    }
  }
}
