package org.diesurvey.estimates;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.diesurvey.estimates.Choices.Option;
import org.junit.jupiter.api.Test;

class ChoicesTest {
  private static final Choices<Integer> THREE =
      new Choices<>(List.of(new Option<>(1, 10), new Option<>(5, 20), new Option<>(2, 30)));

  @Test
  void options_areSortedAndSumToOne() {
    assertEquals(
        List.of(new Option<>(0.625, 20), new Option<>(0.25, 30), new Option<>(0.125, 10)),
        THREE.options());
  }

  @Test
  void at_dividesTheUnitIntervalByProbability() {
    assertEquals(20, THREE.at(0));
    assertEquals(20, THREE.at(0.6249));
    assertEquals(30, THREE.at(0.625));
    assertEquals(30, THREE.at(0.8749));
    assertEquals(10, THREE.at(0.875));
    assertEquals(10, THREE.at(1));
  }

  @Test
  void mean_weighsByProbability() {
    assertEquals((10 + 5 * 20 + 2 * 30) / 8.0, THREE.mean(v -> v), 1e-12);
  }
}
