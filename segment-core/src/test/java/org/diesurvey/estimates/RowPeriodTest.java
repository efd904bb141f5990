package org.diesurvey.estimates;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.diesurvey.quantity.Measured;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RowPeriodTest {
  private static TexturePeriod period(double um, double strength) {
    return new TexturePeriod(new Measured(um, 0.02 * um), false, strength);
  }

  private static LogicBlock block(String id, double um2, TexturePeriod... periods) {
    return new LogicBlock(id, new BlockArea(um2, 0.01), List.of(periods));
  }

  private static RowPeriod of(double um, double umPerPx) {
    return RowPeriod.of(block("L", 1, period(um, 0.5)), umPerPx).orElseThrow();
  }

  private static double probability(RowPeriod p, double rowUm) {
    return p.readings().options().stream()
        .filter(o -> Double.compare(o.value(), rowUm) == 0)
        .mapToDouble(Choices.Option::probability)
        .sum();
  }

  @Test
  void readings_areOneRowTwoTwoThirdsOrHalf() {
    RowPeriod p = of(8, 0.2);
    assertEquals(
        List.of(4.0, 8.0, 16.0, 12.0),
        p.readings().options().stream().map(Choices.Option::value).toList());
    assertEquals(0.43, probability(p, 4), 1e-12);
    assertEquals(0.37, probability(p, 8), 1e-12);
    assertEquals(0.02, p.logSd(), 1e-12);
    assertEquals("8.00 µm in L", p.words());
  }

  /** A row below two samples is not read; the others keep their proportions. */
  @Test
  void rowBelowTwoSamples_isNoReading() {
    assertEquals(0.43, probability(of(8, 2), 4), 1e-12);
    RowPeriod coarse = of(8, 2.1);
    assertEquals(0, probability(coarse, 4));
    assertEquals(37.0 / 57, probability(coarse, 8), 1e-12);
  }

  @ParameterizedTest
  @CsvSource({
    "6, 0.15, 2, true",
    "6, 0.1499, 2, false",
    "5.99, 0.15, 2, false",
    "40, 0.15, 2, true",
    "40.1, 0.15, 2, false"
  })
  void weakFineAndLongPeriods_areNotOfRows(double um, double strength, double pitch, boolean row) {
    LogicBlock b = block("L", 1, period(um, strength));
    assertEquals(row, RowPeriod.of(b, pitch).isPresent());
  }

  @Test
  void strongestPeriod_ofTheLargestBlockThatShowsOne_isTaken() {
    LogicBlock large = block("LARGE", 9, period(7, 0.1));
    LogicBlock middle = block("MIDDLE", 5, period(8, 0.3), period(10, 0.6), period(12, 0.5));
    LogicBlock small = block("SMALL", 2, period(9, 0.9));
    assertEquals(
        "10.0 µm in MIDDLE",
        RowPeriod.of(List.of(small, large, middle), 0.2).orElseThrow().words());
    assertEquals(Optional.empty(), RowPeriod.of(List.of(large), 0.2));
  }

  /**
   * Bayes by hand, densities of Commons Math: rows of 4 um within 0.1 in the logarithm. A foreign
   * period, one in five, may be anything within a factor of 30.
   */
  @Test
  void knownRows_decideTheReading() {
    LogRange rows = LogRange.aroundOne(0.1).times(4);
    NormalDistribution fit = new NormalDistribution(0, Math.hypot(0.1, 0.02));
    double two = 0.8 * 0.43 * fit.density(Math.log(4.4 / 4));
    double foreign = 0.2 / Math.log(30);
    RowPeriod p = of(8.8, 0.2);
    RowPeriod given = p.given(rows);
    assertEquals(two / (two + foreign), probability(given, 4.4), 1e-9);
    assertEquals(foreign / (two + foreign), probability(given, Double.NaN), 1e-9);
    assertEquals(two / 0.8, p.fit(rows), 1e-9);
    assertEquals(two + foreign, p.likelihood(rows), 1e-9);
    assertTrue(Double.isNaN(of(33, 0.2).given(rows).readings().at(0)));
  }
}
