package org.diesurvey;

import java.util.function.DoubleFunction;
import java.util.function.Function;

/**
 * One value of a tuning: what it is now, what it was chosen on, and how to try another.
 *
 * @param name within its tuning; groups and the value are joined by points
 * @param unit "um", "um2", "tiles", "degrees"; "share" for parts of a whole, "1" for other ratios
 * @param value as it stands
 * @param chosenOn the pictures that it was chosen on, or that this is not known
 * @param with the same tuning with another value
 * @param <T> the tuning
 */
public record TunedValue<T>(
    String name, String unit, double value, String chosenOn, DoubleFunction<T> with) {
  /** Unit of numbers that have no halves. */
  public static final String TILES = "tiles";

  /** What is said of a value whose choice neither its comment nor a document tells. */
  public static final String NOT_RECORDED = "not recorded";

  /** The value multiplied; whole tiles change by one at least. */
  public double multiplied(double factor) {
    if (!unit.equals(TILES) || factor == 1) {
      return value * factor;
    }
    double rounded = Math.rint(value * factor);
    return rounded == value ? value + Math.signum(factor - 1) : rounded;
  }

  /** The tuning with the value multiplied. */
  public T times(double factor) {
    return with.apply(multiplied(factor));
  }

  /**
   * The value as one of a tuning that holds this one.
   *
   * @param group name of this tuning in that one
   * @param around that one with this exchanged
   */
  public <U> TunedValue<U> within(String group, Function<T, U> around) {
    return new TunedValue<>(
        group + "." + name, unit, value, chosenOn, v -> around.apply(with.apply(v)));
  }

  /**
   * For the constructors of tunings.
   *
   * @throws IllegalArgumentException unless all are positive numbers
   */
  public static void requirePositive(double... values) {
    for (double v : values) {
      if (!(v > 0 && Double.isFinite(v))) {
        throw new IllegalArgumentException("a tuned value must be positive, was " + v);
      }
    }
  }
}
