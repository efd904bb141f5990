package org.diesurvey.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.diesurvey.quantity.Measured;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FiguresTest {
  /**
   * First row: the worked statement of JCGM 100:2008 (GUM) 7.2.2, mass 100.021 47 g with a standard
   * uncertainty of 0.35 mg (from memory). The others: two digits of uncertainty, by hand.
   */
  @ParameterizedTest
  @CsvSource({
    "100.02147, 0.00035, 100.02147 \u00b1 0.00035",
    "0.39042, 0.00314, 0.3904 \u00b1 0.0031",
    "3.5687, 0.0288, 3.569 \u00b1 0.029",
    "12.3, 0.0996, 12.30 \u00b1 0.10",
    "1234.5, 23.4, 1234 \u00b1 23",
    "0.5, 0, 0.5000",
    "2, 0, 2.000",
  })
  void valueEndsWhereItsUncertaintyEnds(double value, double u, String text) {
    assertEquals(text, Figures.measured(new Measured(value, u)));
  }
}
