package org.diesurvey.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Supplier;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.classification.model.TileClassifier;
import org.diesurvey.comparison.ComparisonScores;
import org.diesurvey.comparison.ComparisonScores.TrueChange;
import org.diesurvey.comparison.LayoutComparer;
import org.diesurvey.comparison.document.Comparison;
import org.diesurvey.pipeline.DieSegmenter;
import org.diesurvey.synthetic.RevisionOptions;
import org.diesurvey.synthetic.RevisionPair;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** Compares found changes of drawn revisions with the true ones. */
@Command(
    name = "score-comparisons",
    description = {
      "Draws pairs of revisions and pairs of different chips, compares each, and says which changes"
          + " were found, which were false, and how far moves are off.",
      ""
    },
    sortOptions = false,
    footer = {
      "",
      "Pairs are compared as many at a time as there are threads, each on one; of each only its"
          + " changes are kept.",
      "",
      "Example:",
      "  diesurvey score-comparisons --drawn 100 --unchanged 100 --different 100 --seed 610000"
    },
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {"0:all were compared", "2:wrong call", "70:a fault of this program"})
final class ScoreComparisonsCommand implements Callable<Integer> {
  @Option(
      names = "--drawn",
      paramLabel = "N",
      defaultValue = "0",
      description = "Pairs of revisions.")
  private int drawn;

  @Option(
      names = "--unchanged",
      paramLabel = "N",
      defaultValue = "0",
      description = "Pairs of photographs of one revision.")
  private int unchanged;

  @Option(
      names = "--different",
      paramLabel = "N",
      defaultValue = "0",
      description = "Pairs of different chips of one technology and size.")
  private int different;

  @Option(names = "--seed", paramLabel = "S", defaultValue = "610000", description = "First seed.")
  private long seed;

  @Option(
      names = "--megapixels",
      paramLabel = "MP",
      defaultValue = "4",
      description = "Largest photograph, 1.2 to 50; ${DEFAULT-VALUE} by default.")
  private double megapixels;

  @Mixin private ModelOptions model;

  private final Diesurvey root;

  ScoreComparisonsCommand(Diesurvey root) {
    this.root = root;
  }

  @Override
  public Integer call() {
    if (drawn < 0 || unchanged < 0 || different < 0 || drawn + unchanged + different == 0) {
      throw new WrongOption("score-comparisons", "needs --drawn, --unchanged or --different N");
    }
    RevisionOptions options = RevisionOptions.defaults().withMaxMegapixels(megapixels);
    List<Task> tasks = new ArrayList<>();
    for (int i = 0; i < Math.max(drawn, Math.max(unchanged, different)); i++) {
      long s = seed + i;
      if (i < drawn) {
        tasks.add(new Task("pair " + s, () -> RevisionPair.draw(s, options)));
      }
      if (i < unchanged) {
        tasks.add(new Task("same die " + s, () -> RevisionPair.draw(s, options.unchanged())));
      }
      if (i < different) {
        tasks.add(new Task("different chips " + s, () -> RevisionPair.strangers(s, options)));
      }
    }
    List<Outcome> outcomes = outcomes(tasks);
    ComparisonScores scores = new ComparisonScores();
    outcomes.forEach(o -> o.addTo(scores));
    long unusable = outcomes.stream().filter(o -> o.kind() == Kind.UNUSABLE).count();
    root.terminal()
        .result(
            String.format(
                Locale.ROOT,
                "seeds from %d: %d pairs, %d of one revision, %d of different chips; at most"
                    + " %.1f MP%n%s%nphotographs not surveyed: in %d pairs (changes there count as"
                    + " missed)",
                seed,
                drawn,
                unchanged,
                different,
                megapixels,
                scores.text(),
                unusable));
    return ExitCode.DONE;
  }

  /** A pair that is drawn when its turn comes. */
  private record Task(String name, Supplier<RevisionPair> pair) {}

  private enum Kind {
    COMPARED,
    REFUSED,
    UNUSABLE
  }

  /**
   * What became of a pair; holds no picture.
   *
   * @param comparison of a compared pair
   */
  private record Outcome(
      Kind kind,
      boolean sameChip,
      boolean grown,
      List<TrueChange> truth,
      Optional<Comparison> comparison) {
    void addTo(ComparisonScores scores) {
      if (!sameChip) {
        if (kind != Kind.UNUSABLE) {
          scores.stranger(kind == Kind.REFUSED);
        }
      } else if (comparison.isPresent()) {
        scores.pair(comparison.get(), truth, !grown);
      } else {
        scores.refusal(truth);
      }
    }
  }

  /** Several pairs at a time, each on one thread, which takes the least time for all. */
  private List<Outcome> outcomes(List<Task> tasks) {
    DieSegmenter all = model.segmenter();
    DieSegmenter segmenter = all.with(all.settings().withThreads(1));
    AtomicInteger done = new AtomicInteger();
    return AtATime.each(
        tasks,
        model.threads(),
        task -> {
          long start = System.nanoTime();
          Outcome o = outcome(task, segmenter);
          tell(task, o, done.incrementAndGet(), tasks.size(), start);
          return o;
        });
  }

  private synchronized void tell(Task task, Outcome o, int number, int of, long start) {
    String what =
        switch (o.kind()) {
          case COMPARED ->
              o.truth().size() + " true, " + o.comparison().get().changes().size() + " found";
          case REFUSED -> "refused";
          case UNUSABLE -> "not surveyed";
        };
    root.terminal()
        .remark(
            String.format(
                Locale.ROOT,
                "%d of %d  %s: %s, %.0f s",
                number,
                of,
                task.name(),
                what,
                (System.nanoTime() - start) / 1e9));
  }

  private static Outcome outcome(Task task, DieSegmenter segmenter) {
    RevisionPair pair = task.pair().get();
    boolean same = pair.truth().sameChip();
    boolean grown = !pair.truth().grownUm().isEmpty();
    List<TrueChange> truth = DrawnRevisions.changes(pair.truth());
    List<Comparison> made = new ArrayList<>();
    Kind kind = Kind.COMPARED;
    try {
      DrawnRevisions.use(
          pair,
          segmenter,
          drawn ->
              made.add(
                  new LayoutComparer(TileClassifier.programVersion(), 1, segmenter.classifier())
                      .compare(drawn.first(), drawn.second())
                      .comparison()));
    } catch (DieInputException e) {
      kind = e.reason() == Reason.NO_COMMON_LAYOUT ? Kind.REFUSED : Kind.UNUSABLE;
    }
    return new Outcome(kind, same, grown, truth, made.stream().findFirst());
  }
}
