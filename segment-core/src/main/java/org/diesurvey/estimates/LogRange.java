package org.diesurvey.estimates;

/**
 * A positive quantity known by its centre and the ends of a 95 % range, as a log-normal with two
 * halves: the median is the centre, the 2.5 % point the low end, the 97.5 % point the high end. One
 * positive factor with a range that need not be symmetric, never below zero.
 *
 * @param low above 0
 * @param centre at least low
 * @param high at least centre, finite
 */
public record LogRange(double low, double centre, double high) {
  /** 97.5 % point of the standard normal distribution. */
  static final double Z95 = 1.959963984540054;

  /** Rejects ranges that are not positive, ordered and finite. */
  public LogRange {
    if (!(low > 0 && centre >= low && high >= centre) || Double.isInfinite(high)) {
      throw new IllegalArgumentException(
          "needs 0 < low <= centre <= high, was " + low + ", " + centre + ", " + high);
    }
  }

  /** A factor around 1 with one standard uncertainty of its logarithm to both sides. */
  static LogRange aroundOne(double logSd) {
    return new LogRange(Math.exp(-Z95 * logSd), 1, Math.exp(Z95 * logSd));
  }

  /** Value at a standard normal deviate: the centre at 0, the ends at -1.96 and 1.96. */
  public double at(double z) {
    return centre * Math.exp(z * (z < 0 ? lowSd() : highSd()));
  }

  /** Standard deviation of the logarithm of the lower half. */
  double lowSd() {
    return Math.log(centre / low) / Z95;
  }

  /** Standard deviation of the logarithm of the upper half. */
  double highSd() {
    return Math.log(high / centre) / Z95;
  }

  /** Mean of both halves' standard deviations of the logarithm. */
  double logSd() {
    return Math.log(high / low) / (2 * Z95);
  }

  /** Product of the range with an exact factor above 0. */
  LogRange times(double factor) {
    return new LogRange(low * factor, centre * factor, high * factor);
  }

  /**
   * Density of the logarithm at a value that was itself measured with an uncertainty.
   *
   * @param value above 0
   * @param valueLogSd standard uncertainty of its logarithm, which widens both halves
   */
  double logDensity(double value, double valueLogSd) {
    double d = Math.log(value / centre);
    double sd = Math.hypot(d < 0 ? lowSd() : highSd(), valueLogSd);
    double side = 2 * sd / (Math.hypot(lowSd(), valueLogSd) + Math.hypot(highSd(), valueLogSd));
    return side * Math.exp(-0.5 * d * d / (sd * sd)) / (sd * Math.sqrt(2 * Math.PI));
  }
}
