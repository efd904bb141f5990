package org.diesurvey.scoring;

import java.util.Arrays;
import java.util.OptionalDouble;

/**
 * Distances from points of the true edges to the nearest predicted edge of the same class.
 *
 * @param points how many points of true edges were looked at
 * @param unmatched how many of them belong to a class that was predicted nowhere; they count as
 *     infinitely far
 * @param median distance that half of the points do not exceed; empty if there are no points or if
 *     it is infinite
 * @param percentile95 distance that 95 % of the points do not exceed; empty likewise
 * @param unit "um", or "px" where the truth has no scale
 */
public record EdgeError(
    int points, int unmatched, OptionalDouble median, OptionalDouble percentile95, String unit) {

  /**
   * Summary of distances in pixels.
   *
   * @param distancesPx infinite for unmatched points
   * @param umPerPx true pixel pitch, if known
   */
  static EdgeError of(double[] distancesPx, OptionalDouble umPerPx) {
    double[] sorted = distancesPx.clone();
    Arrays.sort(sorted);
    int unmatched = (int) Arrays.stream(sorted).filter(Double::isInfinite).count();
    double factor = umPerPx.orElse(1);
    return new EdgeError(
        sorted.length,
        unmatched,
        quantile(sorted, 0.5, factor),
        quantile(sorted, 0.95, factor),
        umPerPx.isPresent() ? "um" : "px");
  }

  /** Nearest rank: the smallest distance that at least this share of the points does not exceed. */
  private static OptionalDouble quantile(double[] sorted, double share, double factor) {
    if (sorted.length == 0) {
      return OptionalDouble.empty();
    }
    int rank = Math.max(1, (int) Math.ceil(share * sorted.length));
    double value = sorted[rank - 1];
    return Double.isInfinite(value) ? OptionalDouble.empty() : OptionalDouble.of(value * factor);
  }
}
