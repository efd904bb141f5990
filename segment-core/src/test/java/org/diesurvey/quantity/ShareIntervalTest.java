package org.diesurvey.quantity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ShareIntervalTest {
  /**
   * Rows 1 to 4: Newcombe 1998, Statistics in Medicine 17:857-872, Table I, method 3 (values from
   * memory, recomputed). Row 5: example input of the proportion page of VassarStats.
   */
  @ParameterizedTest(name = "{0} of {1}")
  @CsvSource({
    "81, 263, 0.2553, 0.3662",
    "15, 148, 0.0624, 0.1605",
    "0, 20, 0.0000, 0.1611",
    "1, 29, 0.0061, 0.1718",
    "23, 60, 0.2709, 0.5098"
  })
  void wilson_agreesWithPublishedIntervals(int k, int n, double low, double high) {
    Interval interval = ShareInterval.wilson(k, n, 0.95);
    assertEquals(low, interval.low(), 1e-4);
    assertEquals(high, interval.high(), 1e-4);
  }

  /**
   * Definition: Brown, Cai and DasGupta 2001, Statistical Science 16:101-133. Values: quantiles of
   * the beta distribution computed with the open-source library SciPy.
   */
  @ParameterizedTest(name = "{0} of {1}")
  @CsvSource({"23, 60, 0.26815, 0.50948", "0, 20, 0, 0.11664", "95, 100, 0.89390, 0.98067"})
  void jeffreys_agreesWithQuantilesComputedElsewhere(int k, int n, double low, double high) {
    Interval interval = ShareInterval.jeffreys(k, n, 0.95);
    assertEquals(low, interval.low(), 1e-5);
    assertEquals(high, interval.high(), 1e-5);
  }

  @Test
  void allSuccesses_endAtExactlyOne() {
    assertEquals(1, ShareInterval.wilson(7, 7, 0.95).high());
    assertEquals(1, ShareInterval.jeffreys(7, 7, 0.95).high());
  }

  @Test
  void moreSuccessesThanTrials_areRefused() {
    assertThrows(IllegalArgumentException.class, () -> ShareInterval.wilson(8, 7, 0.95));
    assertThrows(IllegalArgumentException.class, () -> ShareInterval.jeffreys(1, 0, 0.95));
  }
}
