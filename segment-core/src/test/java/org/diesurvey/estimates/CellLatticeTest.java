package org.diesurvey.estimates;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.diesurvey.quantity.Measured;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CellLatticeTest {
  private static TexturePeriod period(double um, boolean alongX, double strength) {
    return new TexturePeriod(new Measured(um, 0.03 * um), alongX, strength);
  }

  private static CellLattice of(double x, double y) {
    return CellLattice.of(List.of(period(x, true, 0.5), period(y, false, 0.5)), 0.2).orElseThrow();
  }

  private static double probability(CellLattice l, double um2) {
    return l.readings().options().stream()
        .filter(o -> Double.compare(o.value(), um2) == 0)
        .mapToDouble(Choices.Option::probability)
        .sum();
  }

  /** One, two or four cells each way: areas of 8 um2 over 1 to 16, halves two ways. */
  @Test
  void readings_areTheWaysToCountCells() {
    CellLattice l = of(2, 4);
    assertEquals(0.5 * 0.5 + 2 * 0.32 * 0.18, probability(l, 2), 1e-12);
    assertEquals(0.32 * 0.32, probability(l, 8), 1e-12);
    assertEquals(2 * 0.5 * 0.32, probability(l, 4), 1e-12);
    assertEquals(0.18 * 0.18, probability(l, 0.5), 1e-12);
    assertEquals(1, l.readings().mean(a -> 1), 1e-12);
    assertEquals("2.00 µm × 4.00 µm", l.words());
  }

  /** Two lengths of 3 % that err independently: JCGM 100:2008, equation 10. */
  @Test
  void area_hasTheUncertaintyOfBothPeriods() {
    assertEquals(0.03 * Math.sqrt(2), of(2, 4).logSd(), 1e-12);
  }

  @ParameterizedTest
  @CsvSource({
    "0.8, 0.25, true",
    "0.79, 0.25, false",
    "0.8, 0.2499, false",
    "14, 0.25, true",
    "14.1, 0.25, false"
  })
  void bothPeriods_needStrengthSamplesAndALengthOfCells(double um, double strength, boolean read) {
    TexturePeriod sure = period(3, false, 0.9);
    assertEquals(read, CellLattice.of(List.of(sure, period(um, true, strength)), 0.2).isPresent());
    TexturePeriod same = period(3, true, 0.9);
    assertEquals(read, CellLattice.of(List.of(same, period(um, false, strength)), 0.2).isPresent());
    assertTrue(CellLattice.of(List.of(sure, period(2, false, 0.9)), 0.2).isEmpty());
  }

  /** Bayes by hand, densities of Commons Math: a cell of 2 um2 within 0.1 in the logarithm. */
  @Test
  void knownCell_decidesTheReading() {
    Choices<LogRange> cell =
        new Choices<>(List.of(new Choices.Option<>(1, LogRange.aroundOne(0.1).times(2))));
    CellLattice l = of(2, 4.4);
    NormalDistribution fit = new NormalDistribution(0, Math.hypot(0.1, l.logSd()));
    double two = 0.7 * (0.5 * 0.5 + 2 * 0.32 * 0.18) * fit.density(Math.log(1.1));
    double foreign = 0.3 / Math.log(30);
    assertEquals(two / 0.7, l.fit(cell), 1e-6);
    assertEquals(two + foreign, l.likelihood(cell), 1e-6);
    CellLattice given = l.given(cell);
    assertEquals(foreign / (two + foreign), probability(given, Double.NaN), 1e-6);
    assertEquals(two / (two + foreign), probability(given, 2 * 4.4 / 4), 1e-6);
  }
}
