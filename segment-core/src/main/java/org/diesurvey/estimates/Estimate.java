package org.diesurvey.estimates;

import org.diesurvey.Supported;

/**
 * An estimated amount with its 95 % interval (2.5 % and 97.5 % points), which is not symmetric.
 *
 * @param value median, 0 or more
 * @param low at most the value
 * @param high at least the value, finite
 */
@Supported
public record Estimate(double value, double low, double high) {
  /** Rejects amounts that are not ordered. */
  public Estimate {
    if (!(low >= 0 && value >= low && high >= value) || Double.isInfinite(high)) {
      throw new IllegalArgumentException(
          "needs 0 <= low <= value <= high, was " + low + ", " + value + ", " + high);
    }
  }

  /** Whether an amount lies in the interval, ends included. */
  public boolean covers(double amount) {
    return amount >= low && amount <= high;
  }

  /** The same in another unit. */
  public Estimate times(double factor) {
    return new Estimate(value * factor, low * factor, high * factor);
  }
}
