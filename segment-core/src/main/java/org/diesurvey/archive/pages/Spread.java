package org.diesurvey.archive.pages;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;

/**
 * Spread of a figure over photographs. Outliers lie more than 3.5 robust standard deviations
 * (1.4826 times the median absolute deviation) from the median: B. Iglewicz and D. Hoaglin, "How to
 * Detect and Handle Outliers" (1993), from memory.
 *
 * @param lowest value
 * @param median value
 * @param highest value
 * @param outliers positions of outliers in the list given
 */
record Spread(double lowest, double median, double highest, List<Integer> outliers) {
  private static final double FACTOR = 1.4826;
  private static final double LIMIT = 3.5;

  /** Deviations below a percentage point are no outliers, however alike the others are. */
  private static final double LEAST = 0.01;

  /** Fewer values than this have no outliers. */
  private static final int FEWEST = 5;

  Spread {
    outliers = List.copyOf(outliers);
  }

  /**
   * @param shares at least one, each finite
   */
  static Spread of(double[] shares) {
    double median = median(shares);
    double[] off = Arrays.stream(shares).map(v -> Math.abs(v - median)).toArray();
    double limit = Math.max(LEAST, LIMIT * FACTOR * median(off));
    List<Integer> outliers =
        shares.length < FEWEST
            ? List.of()
            : IntStream.range(0, shares.length).filter(i -> off[i] > limit).boxed().toList();
    return new Spread(
        Arrays.stream(shares).min().orElseThrow(),
        median,
        Arrays.stream(shares).max().orElseThrow(),
        outliers);
  }

  private static double median(double[] values) {
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    int n = sorted.length;
    return n % 2 == 1 ? sorted[n / 2] : (sorted[n / 2 - 1] + sorted[n / 2]) / 2;
  }
}
