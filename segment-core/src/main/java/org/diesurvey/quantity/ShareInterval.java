package org.diesurvey.quantity;

import org.apache.commons.math3.distribution.BetaDistribution;
import org.apache.commons.math3.distribution.NormalDistribution;

/**
 * Intervals for an unknown share when k of n independent trials came out.
 *
 * <p>Neighbouring tiles of one die are not independent: n is a number of dies or of separate
 * regions, never of tiles.
 */
public final class ShareInterval {
  private ShareInterval() {}

  /**
   * Score interval of Wilson, J. Am. Stat. Assoc. 22 (1927) 209-212 (reference from memory): centre
   * and half width of (p - q)^2 = z^2 q (1 - q) / n solved for q.
   *
   * @param successes k, 0 to n
   * @param trials n, at least 1
   * @param coverage two-sided, for example 0.95
   */
  public static Interval wilson(int successes, int trials, double coverage) {
    check(successes, trials, coverage);
    double z = new NormalDistribution(null, 0, 1).inverseCumulativeProbability(0.5 + coverage / 2);
    double n = trials;
    double p = successes / n;
    double centre = p + z * z / (2 * n);
    double half = z * Math.sqrt(p * (1 - p) / n + z * z / (4 * n * n));
    double scale = 1 + z * z / n;
    // The exact ends at k = 0 and k = n are 0 and 1; rounding would miss them by one bit.
    double low = successes == 0 ? 0 : (centre - half) / scale;
    double high = successes == trials ? 1 : (centre + half) / scale;
    return new Interval(low, high);
  }

  /**
   * Equal-tailed interval of Jeffreys as defined by Brown, Cai and DasGupta, Statistical Science 16
   * (2001) 101-133 (reference from memory): quantiles of Beta(k + 1/2, n - k + 1/2), with the lower
   * end 0 at k = 0 and the upper end 1 at k = n.
   *
   * @param successes k, 0 to n
   * @param trials n, at least 1
   * @param coverage two-sided, for example 0.95
   */
  public static Interval jeffreys(int successes, int trials, double coverage) {
    check(successes, trials, coverage);
    BetaDistribution beta =
        new BetaDistribution(null, successes + 0.5, trials - successes + 0.5, 1e-12);
    double tail = (1 - coverage) / 2;
    double low = successes == 0 ? 0 : beta.inverseCumulativeProbability(tail);
    double high = successes == trials ? 1 : beta.inverseCumulativeProbability(1 - tail);
    return new Interval(low, high);
  }

  private static void check(int successes, int trials, double coverage) {
    if (trials < 1 || successes < 0 || successes > trials) {
      throw new IllegalArgumentException(
          "needs 0 <= successes <= trials and trials >= 1, was " + successes + " of " + trials);
    }
    if (!(coverage > 0 && coverage < 1)) {
      throw new IllegalArgumentException("coverage must be in 0..1, was " + coverage);
    }
  }
}
