package org.diesurvey.classification.training;

import java.util.List;
import java.util.function.IntPredicate;
import org.diesurvey.classification.DieClass;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.classification.model.TileClassifier;

/**
 * Tiles counted by the class that they have and the class that a model gives them, as classes of
 * the survey: bit cells and periphery are one.
 */
final class TileScore {
  private static final int N = DieClass.values().length;

  private final long[][] count = new long[N][N];

  /** Counts the samples of a die. */
  void add(TaughtTiles die, TileProbabilities found, IntPredicate which) {
    for (int t = 0; t < found.grid().count(); t++) {
      if (die.label(t) >= 0 && which.test(t)) {
        DieClass truth = SurfaceClass.values()[die.label(t)].dieClass();
        count[truth.ordinal()][found.best(t).dieClass().ordinal()]++;
      }
    }
  }

  /** Share of tiles named rightly, classes weighted alike, 0 to 1; 0 without tiles. */
  double balancedAccuracy() {
    double sum = 0;
    int classes = 0;
    for (int k = 0; k < N; k++) {
      long all = 0;
      for (long n : count[k]) {
        all += n;
      }
      if (all > 0) {
        sum += count[k][k] / (double) all;
        classes++;
      }
    }
    return classes == 0 ? 0 : sum / classes;
  }

  /** Intersection over union of each class that occurs in truth, averaged, 0 to 1. */
  double meanIou() {
    double sum = 0;
    int classes = 0;
    for (int k = 0; k < N; k++) {
      long truth = 0;
      long found = 0;
      for (int j = 0; j < N; j++) {
        truth += count[k][j];
        found += count[j][k];
      }
      if (truth > 0 && k != DieClass.UNCLEAR.ordinal()) {
        sum += count[k][k] / (double) (truth + found - count[k][k]);
        classes++;
      }
    }
    return classes == 0 ? 0 : sum / classes;
  }

  /** Mean IoU over dies, each counting alike. */
  static double meanIou(TileClassifier model, List<TaughtTiles> dies) {
    double sum = 0;
    for (TaughtTiles die : dies) {
      TileScore score = new TileScore();
      score.add(die, model.classify(die.features(), die.sides()), t -> true);
      sum += score.meanIou();
    }
    return dies.isEmpty() ? 0 : sum / dies.size();
  }
}
