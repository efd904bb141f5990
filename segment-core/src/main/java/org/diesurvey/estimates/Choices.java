package org.diesurvey.estimates;

import java.util.Comparator;
import java.util.List;
import java.util.function.ToDoubleFunction;

/**
 * Alternatives with probabilities, the most probable first.
 *
 * @param options with probabilities that sum to 1
 * @param <T> what there is to choose
 */
record Choices<T>(List<Option<T>> options) {

  /**
   * One alternative.
   *
   * @param probability 0 to 1
   * @param value what it is
   * @param <T> what there is to choose
   */
  record Option<T>(double probability, T value) {}

  /** Copies, sorts and scales to a sum of 1; needs a positive sum. */
  Choices {
    double sum = options.stream().mapToDouble(Option::probability).sum();
    options =
        options.stream()
            .map(o -> new Option<>(o.probability() / sum, o.value()))
            .sorted(Comparator.comparingDouble((Option<T> o) -> o.probability()).reversed())
            .toList();
  }

  /** The alternative at a uniform number of 0 to 1; the most probable at 0. */
  T at(double uniform) {
    double sum = 0;
    for (Option<T> o : options) {
      sum += o.probability();
      if (uniform < sum) {
        return o.value();
      }
    }
    return options.get(options.size() - 1).value();
  }

  /** Mean of a function over the alternatives. */
  double mean(ToDoubleFunction<T> of) {
    return options.stream().mapToDouble(o -> o.probability() * of.applyAsDouble(o.value())).sum();
  }
}
