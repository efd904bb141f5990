package org.diesurvey.quantity;

import org.diesurvey.Supported;

/**
 * A closed interval, in the unit that the holder's name states.
 *
 * @param low finite, at most {@code high}
 * @param high finite
 */
@Supported
public record Interval(double low, double high) {
  /** Rejects ends that are not finite or in the wrong order. */
  public Interval {
    if (!Double.isFinite(low) || !Double.isFinite(high) || low > high) {
      throw new IllegalArgumentException(
          "interval must be finite and ordered: " + low + ", " + high);
    }
  }

  /** Whether the value lies in the interval, ends included. */
  public boolean contains(double value) {
    return value >= low && value <= high;
  }

  /** High end minus low end. */
  public double width() {
    return high - low;
  }
}
