package org.diesurvey.estimates;

import java.util.SplittableRandom;
import org.apache.commons.math3.distribution.NormalDistribution;

/**
 * One draw of all causes: standard normal deviates of the common ones, uniform numbers for choices,
 * and normal deviates of single edges. Causes that are not varied stay at 0.
 *
 * <p>Deviates come from a table of 2^14 equally probable quantiles, which makes draws cheap and the
 * same on every platform.
 */
final class Deviates {
  private static final int BITS = 14;
  private static final double[] QUANTILES = quantiles();

  private final double[] common = new double[Factor.values().length];
  private final double[] edges;
  private double cellKind;
  private double latticeReading;
  private double rowReading;

  /**
   * @param blocks how many blocks have edges of their own
   */
  Deviates(int blocks) {
    edges = new double[blocks];
  }

  private static double[] quantiles() {
    int n = 1 << BITS;
    NormalDistribution normal = new NormalDistribution(null, 0, 1);
    double[] q = new double[n];
    for (int i = 0; i < n / 2; i++) {
      double z = normal.inverseCumulativeProbability((i + 0.5) / n);
      q[i] = z;
      q[n - 1 - i] = -z;
    }
    return q;
  }

  private static double normal(SplittableRandom random) {
    return QUANTILES[random.nextInt() >>> (32 - BITS)];
  }

  /** Draws everything again. */
  void draw(SplittableRandom random) {
    for (int i = 0; i < common.length; i++) {
      common[i] = normal(random);
    }
    for (int i = 0; i < edges.length; i++) {
      edges[i] = normal(random);
    }
    cellKind = random.nextDouble();
    latticeReading = random.nextDouble();
    rowReading = random.nextDouble();
  }

  /** Draws one cause and holds all others. */
  void drawOnly(Factor factor, SplittableRandom random) {
    switch (factor) {
      case EDGE -> {
        for (int i = 0; i < edges.length; i++) {
          edges[i] = normal(random);
        }
      }
      case CELL_KIND -> cellKind = random.nextDouble();
      case ROW_READING -> rowReading = random.nextDouble();
      case LATTICE -> {
        common[factor.ordinal()] = normal(random);
        latticeReading = random.nextDouble();
      }
      default -> common[factor.ordinal()] = normal(random);
    }
  }

  /** Standard normal deviate of a common cause. */
  double z(Factor factor) {
    return common[factor.ordinal()];
  }

  /** Standard normal deviate of one block's edge. */
  double edge(int block) {
    return edges[block];
  }

  /** Uniform in 0 to 1, for the kind of bit cell. */
  double cellKind() {
    return cellKind;
  }

  /** Uniform in 0 to 1, for the reading of a lattice. */
  double latticeReading() {
    return latticeReading;
  }

  /** Uniform in 0 to 1, for the reading of a row period. */
  double rowReading() {
    return rowReading;
  }
}
