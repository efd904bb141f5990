package org.diesurvey.classification.model;

import java.util.List;
import org.diesurvey.classification.DieClass;
import smile.classification.LogisticRegression;

/**
 * Probability that a region's class is right. The tiles of a region are not independent witnesses,
 * so their mean probability is turned into a confidence by a logistic curve fitted on regions of
 * drawn dies that the tile model had not seen (Platt 1999, from memory).
 *
 * @param slope factor of the logit of the mean tile probability
 * @param size factor of the natural logarithm of the number of tiles
 * @param memory offset of memory arrays
 * @param macro offset of hard macros
 * @param logic offset of logic
 * @param ring offset of pad rings
 */
public record RegionConfidence(
    double slope, double size, double memory, double macro, double logic, double ring) {
  /** The mean probability itself. */
  public static final RegionConfidence PLAIN = new RegionConfidence(1, 0, 0, 0, 0, 0);

  private static final double PENALTY = 0.5;

  /**
   * A region whose true class is known.
   *
   * @param dieClass the class it was given
   * @param meanProbability of its tiles for that class, 0 to 1
   * @param tiles number of tiles
   * @param right whether most of it truly is of that class
   */
  public record Outcome(DieClass dieClass, double meanProbability, int tiles, boolean right) {}

  /**
   * Confidence in a region.
   *
   * @return 0 to 1; for unclear regions the mean probability
   */
  public double of(DieClass dieClass, double meanProbability, int tiles) {
    double offset;
    switch (dieClass) {
      case MEMORY_ARRAY -> offset = memory;
      case HARD_MACRO -> offset = macro;
      case LOGIC -> offset = logic;
      case PAD_RING -> offset = ring;
      default -> {
        return meanProbability;
      }
    }
    double x = offset + slope * logit(meanProbability) + size * Math.log(Math.max(1, tiles));
    return 1 / (1 + Math.exp(-x));
  }

  private static double logit(double p) {
    double q = Math.max(0.01, Math.min(0.99, p));
    return Math.log(q / (1 - q));
  }

  /** Fits the curve; the plain one if there are fewer than 40 regions or all are right or wrong. */
  static RegionConfidence fit(List<Outcome> outcomes) {
    long right = outcomes.stream().filter(Outcome::right).count();
    if (outcomes.size() < 40 || right == 0 || right == outcomes.size()) {
      return PLAIN;
    }
    double[][] x = new double[outcomes.size()][];
    int[] y = new int[outcomes.size()];
    for (int i = 0; i < y.length; i++) {
      Outcome o = outcomes.get(i);
      x[i] =
          new double[] {
            logit(o.meanProbability()),
            Math.log(Math.max(1, o.tiles())),
            o.dieClass() == DieClass.MEMORY_ARRAY ? 1 : 0,
            o.dieClass() == DieClass.HARD_MACRO ? 1 : 0,
            o.dieClass() == DieClass.LOGIC ? 1 : 0,
            o.dieClass() == DieClass.PAD_RING ? 1 : 0
          };
      y[i] = o.right() ? 1 : 0;
    }
    double[] w = LogisticRegression.binomial(x, y, PENALTY, 1e-6, 500).coefficients();
    return new RegionConfidence(w[0], w[1], w[2] + w[6], w[3] + w[6], w[4] + w[6], w[5] + w[6]);
  }
}
