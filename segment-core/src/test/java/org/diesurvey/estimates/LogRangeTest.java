package org.diesurvey.estimates;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.apache.commons.math3.analysis.integration.SimpsonIntegrator;
import org.apache.commons.math3.distribution.LogNormalDistribution;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Against the distributions and the integration of Commons Math. */
class LogRangeTest {
  private static final LogRange SKEWED = new LogRange(0.5, 2, 3);

  /** Each half is that of a log-normal distribution. */
  @ParameterizedTest
  @ValueSource(doubles = {0.001, 0.025, 0.3, 0.5, 0.7, 0.975, 0.999})
  void at_isTheQuantileOfALogNormal(double p) {
    double sd = Math.log(p < 0.5 ? 2 / 0.5 : 3 / 2.0) / 1.959963984540054;
    double expected = new LogNormalDistribution(Math.log(2), sd).inverseCumulativeProbability(p);
    double z = new NormalDistribution().inverseCumulativeProbability(p);
    assertEquals(expected, SKEWED.at(z), 1e-9 * expected);
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, 0.2})
  void logDensity_hasAnAreaOfOne_andNoStep(double valueSd) {
    double area =
        new SimpsonIntegrator(1e-9, 1e-9, 8, 30)
            .integrate(10_000_000, x -> SKEWED.logDensity(Math.exp(x), valueSd), -8, 8);
    assertEquals(1, area, 1e-5);
    assertEquals(SKEWED.logDensity(2, valueSd), SKEWED.logDensity(1.9999999, valueSd), 1e-6);
  }

  /** A value measured with an uncertainty: the variances of both logarithms add. */
  @ParameterizedTest
  @CsvSource({"0.6, 0", "1.3, 0.1", "1, 0.4"})
  void logDensity_ofAnEvenRange_isNormal(double value, double valueSd) {
    LogRange even = LogRange.aroundOne(0.3);
    double expected = new NormalDistribution(0, Math.hypot(0.3, valueSd)).density(Math.log(value));
    assertEquals(expected, even.logDensity(value, valueSd), 1e-9);
    assertEquals(0.3, even.logSd(), 1e-12);
  }

  @Test
  void times_scalesAllThree() {
    assertEquals(new LogRange(1, 4, 6), SKEWED.times(2));
  }

  @ParameterizedTest
  @CsvSource({"0, 1, 2", "2, 1, 3", "1, 3, 2", "1, 2, Infinity", "NaN, 1, 2"})
  void whatIsNoRange_isRefused(double low, double centre, double high) {
    assertThrows(IllegalArgumentException.class, () -> new LogRange(low, centre, high));
  }
}
