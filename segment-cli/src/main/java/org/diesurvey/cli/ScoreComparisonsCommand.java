package org.diesurvey.cli;

import java.util.Locale;
import java.util.concurrent.Callable;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.classification.TileClassifier;
import org.diesurvey.comparison.Comparison;
import org.diesurvey.comparison.ComparisonScores;
import org.diesurvey.comparison.LayoutComparer;
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
    footer = {"", "Example:", "  diesurvey score-comparisons --drawn 100 --seed 610000"},
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
      description = "Largest photograph, 1.2 to 50; ${DEFAULT-VALUE} if left away.")
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
    ComparisonScores scores = new ComparisonScores();
    DieSegmenter segmenter = model.segmenter();
    for (long s = seed; s < seed + drawn; s++) {
      score(RevisionPair.draw(s, options), "pair " + s, scores, segmenter);
    }
    for (long s = seed; s < seed + unchanged; s++) {
      score(RevisionPair.draw(s, options.unchanged()), "same die " + s, scores, segmenter);
    }
    for (long s = seed; s < seed + different; s++) {
      score(RevisionPair.strangers(s, options), "different chips " + s, scores, segmenter);
    }
    root.terminal().result(scores.text());
    return ExitCode.DONE;
  }

  private void score(
      RevisionPair pair, String name, ComparisonScores scores, DieSegmenter segmenter) {
    DrawnRevisions.use(pair, segmenter, r -> score(r, pair, name, scores, segmenter));
  }

  private void score(
      DrawnRevisions drawn,
      RevisionPair pair,
      String name,
      ComparisonScores scores,
      DieSegmenter segmenter) {
    try {
      Comparison c =
          new LayoutComparer(
                  TileClassifier.programVersion(), model.threads(), segmenter.classifier())
              .compare(drawn.first(), drawn.second())
              .comparison();
      if (pair.truth().sameChip()) {
        scores.pair(c, drawn.truth(), pair.truth().grownUm().isEmpty());
      } else {
        scores.stranger(false);
      }
      root.terminal()
          .remark(
              String.format(
                  Locale.ROOT,
                  "%s: %d true, %d found",
                  name,
                  drawn.truth().size(),
                  c.changes().size()));
    } catch (DieInputException e) {
      if (e.reason() != Reason.NO_COMMON_LAYOUT) {
        throw e;
      }
      if (pair.truth().sameChip()) {
        scores.refusal(drawn.truth());
      } else {
        scores.stranger(true);
      }
      root.terminal().remark(name + ": refused");
    }
  }
}
