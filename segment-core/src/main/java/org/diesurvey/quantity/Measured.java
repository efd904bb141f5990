package org.diesurvey.quantity;

import org.diesurvey.Supported;

/**
 * A measured value with its standard uncertainty (k = 1), both in the unit that the holder's name
 * states (for example {@code areaMm2}).
 *
 * <p>Sums, products and quotients of independent values follow the law of propagation of
 * uncertainty, JCGM 100:2008 (GUM) 5.1.2, equation 10 (numbering from memory). Values that share a
 * cause, such as two areas from one pixel pitch, are not independent: see {@link Propagation}.
 *
 * @param value finite
 * @param standardUncertainty finite, not negative, same unit as the value
 */
@Supported
public record Measured(double value, double standardUncertainty) {

  /** Rejects what is not a finite number and negative uncertainties. */
  public Measured {
    if (!Double.isFinite(value)) {
      throw new IllegalArgumentException("value must be finite, was " + value);
    }
    if (!(standardUncertainty >= 0) || Double.isInfinite(standardUncertainty)) {
      throw new IllegalArgumentException(
          "standard uncertainty must be finite and >= 0, was " + standardUncertainty);
    }
  }

  /** A value taken as exact. */
  public static Measured exact(double value) {
    return new Measured(value, 0);
  }

  /** Standard uncertainty over the absolute value; 0 for an exact zero. */
  public double relativeUncertainty() {
    return standardUncertainty == 0 ? 0 : standardUncertainty / Math.abs(value);
  }

  /** This value and its uncertainty in another unit: both times {@code factor}. */
  public Measured times(double factor) {
    return new Measured(value * factor, standardUncertainty * Math.abs(factor));
  }

  /** Sum with an independent value in the same unit. */
  public Measured plus(Measured other) {
    return new Measured(
        value + other.value, Math.hypot(standardUncertainty, other.standardUncertainty));
  }

  /** Difference from an independent value in the same unit. */
  public Measured minus(Measured other) {
    return new Measured(
        value - other.value, Math.hypot(standardUncertainty, other.standardUncertainty));
  }

  /** Product with an independent value. */
  public Measured times(Measured other) {
    return new Measured(
        value * other.value,
        Math.hypot(standardUncertainty * other.value, other.standardUncertainty * value));
  }

  /**
   * Quotient by an independent value.
   *
   * @throws IllegalArgumentException if the divisor is 0
   */
  public Measured dividedBy(Measured divisor) {
    double quotient = value / divisor.value;
    return new Measured(
        quotient,
        Math.hypot(
            standardUncertainty / divisor.value,
            quotient * divisor.standardUncertainty / divisor.value));
  }
}
