package org.diesurvey.report.text;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.diesurvey.quantity.Measured;
import org.diesurvey.report.picture.ScaleBar;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class QuantitiesTest {

  @ParameterizedTest
  @CsvSource({
    // JCGM 100:2008 (GUM) 7.2.2, the mass standard: 100.021 47 g with 0.35 mg. From memory.
    "100.02147, 0.00035, 100.02147 ± 0.00035 g",
    // GUM 7.2.6: 10.057 62 ohm with 27 milliohm is rounded to 10.058. From memory.
    "10.05762, 0.027, 10.058 ± 0.027 g",
    // Ours: rounding that carries into the next place, and uncertainties above ten.
    "0.5, 0.0996, 0.50 ± 0.10 g",
    "1234.5, 37.6, 1234 ± 38 g",
    "123456, 1234, 123500 ± 1200 g",
    "0, 0.02, 0.000 ± 0.020 g",
    "2.5, 0, 2.500 g"
  })
  void valueEndsWhereItsUncertaintyEnds(double value, double u, String expected) {
    assertEquals(expected, Quantities.withUncertainty(new Measured(value, u), "g"));
  }

  @Test
  void significantDigits_areKeptWithoutExponent() {
    assertEquals("0.0616", Quantities.significant(0.06163, 3));
    assertEquals("1.00", Quantities.significant(0.99999, 3));
    assertEquals("123000", Quantities.significant(123456, 3));
    assertEquals("0.00000012", Quantities.significant(1.2e-7, 2));
    assertEquals("130", Quantities.plain(130.0, 4));
  }

  @Test
  void ends_areNotOverstated() {
    assertEquals("> 99\u00a0%", Quantities.probability(0.9991));
    assertEquals("> 99\u00a0%", Quantities.probability(1), "nothing estimated is certain");
    assertEquals("< 1\u00a0%", Quantities.probability(0.004));
    assertEquals("0\u00a0%", Quantities.probability(0));
    assertEquals("< 0.1\u00a0%", Quantities.percent(0.0004));
    assertEquals("0.0\u00a0%", Quantities.percent(0));
  }

  @ParameterizedTest
  @CsvSource({
    "437, 200, 200 µm", "500, 500, 500 µm", "999.9, 500, 500 µm", "1000, 1000, 1 mm",
    "2300, 2000, 2 mm", "0.73, 0.5, 0.5 µm", "0.2, 0.2, 0.2 µm", "61000, 50000, 50 mm"
  })
  void scaleBar_isTheLongestRoundOne(double longest, double expected, String label) {
    ScaleBar bar = ScaleBar.upTo(longest);
    assertEquals(expected, bar.lengthUm(), 1e-9);
    assertEquals(label, bar.label());
  }
}
