package org.diesurvey.comparison.registration;

import java.util.function.Function;

/**
 * The same thing of both dies of a comparison, or of their pictures.
 *
 * @param first of the first die
 * @param second of the second die
 */
public record OfBoth<T>(T first, T second) {
  /**
   * That of one die.
   *
   * @param ofFirst whether of the first, else of the second
   */
  public T of(boolean ofFirst) {
    return ofFirst ? first : second;
  }

  /** What a function makes of each. */
  public <R> OfBoth<R> map(Function<? super T, ? extends R> f) {
    return new OfBoth<>(f.apply(first), f.apply(second));
  }
}
