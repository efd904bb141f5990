package org.diesurvey.measures;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import java.util.Random;
import org.diesurvey.quantity.Measured;
import org.junit.jupiter.api.Test;

class AreaUncertaintyTest {
  private static final Measured HALF_PERCENT = new Measured(0.25, 0.00125);

  /** Own arithmetic from JCGM 100:2008, equation 10: 0.0625 mm2, relative 0.010198. */
  @Test
  void millionPixelsAtHalfPercentScale_isOnePercentUncertain() {
    Measured area = AreaUncertainty.ofCountMm2(new Measured(1e6, 2000), HALF_PERCENT);
    assertEquals(0.0625, area.value(), 1e-12);
    assertEquals(0.010198, area.relativeUncertainty(), 1e-6);
    assertEquals(637.4, area.standardUncertainty() * 1e6, 0.1);
  }

  /**
   * Monte Carlo after JCGM 101:2008: the spread of drawn areas must be what the formula says. Sides
   * of 400 x 250 px, each side moved outwards by the same unknown distance, one unknown pitch.
   */
  @Test
  void formula_agreesWithDrawnAreas() {
    double edgePx = 0.8;
    Measured pitch = new Measured(0.5, 0.002);
    Measured area = AreaUncertainty.ofOutlineMm2(400 * 250, 2 * (400 + 250), edgePx, pitch);
    Random random = new Random(20261);
    int draws = 200_000;
    double sum = 0;
    double squares = 0;
    for (int i = 0; i < draws; i++) {
      double out = edgePx * random.nextGaussian();
      double p = pitch.value() + pitch.standardUncertainty() * random.nextGaussian();
      double mm2 = (400 + 2 * out) * (250 + 2 * out) * p * p / 1e6;
      sum += mm2;
      squares += mm2 * mm2;
    }
    double mean = sum / draws;
    double spread = Math.sqrt(squares / draws - mean * mean);
    // The spread of 200,000 draws is itself known to 0.16 %; 1 % is six times that.
    assertEquals(spread, area.standardUncertainty(), 0.01 * spread);
  }

  /** One common pitch: the total of many regions stays as uncertain as the scale makes it. */
  @Test
  void total_keepsTheScaleTermAndAveragesTheEdges() {
    List<Measured> regions = java.util.Collections.nCopies(100, new Measured(1e4, 100));
    Measured total = AreaUncertainty.totalMm2(regions, HALF_PERCENT);
    assertEquals(0.0625, total.value(), 1e-12);
    assertEquals(Math.hypot(0.01, 0.001), total.relativeUncertainty(), 1e-9);
    assertEquals(0, AreaUncertainty.totalMm2(List.of(), HALF_PERCENT).value());
  }

  @Test
  void length_hasOneScaleTermAndTwoEnds() {
    Measured mm = AreaUncertainty.lengthMm(4000, 3, HALF_PERCENT);
    assertEquals(1, mm.value(), 1e-12);
    assertEquals(Math.hypot(0.005, 3 * Math.sqrt(2) / 4000), mm.standardUncertainty(), 1e-9);
  }

  @Test
  void impossibleInput_isRefused() {
    assertThrows(
        IllegalArgumentException.class,
        () -> AreaUncertainty.ofCountMm2(Measured.exact(-1), HALF_PERCENT));
    assertThrows(
        IllegalArgumentException.class,
        () -> AreaUncertainty.ofOutlineMm2(10, -1, 0.5, HALF_PERCENT));
  }

  @Test
  void nothingAtAll_isAnArea_butNoPitchIsNoScale() {
    assertEquals(0, AreaUncertainty.ofCountMm2(Measured.exact(0), HALF_PERCENT).value());
    assertEquals(
        0, AreaUncertainty.ofOutlineMm2(0, 0, 0, HALF_PERCENT).standardUncertainty(), 1e-15);
    assertThrows(
        IllegalArgumentException.class,
        () -> AreaUncertainty.ofCountMm2(Measured.exact(1), Measured.exact(0)));
    for (double bad : new double[] {-1e-9, Double.NaN}) {
      assertThrows(
          IllegalArgumentException.class, () -> AreaUncertainty.edgeCountUncertaintyPx(bad, 1));
      assertThrows(
          IllegalArgumentException.class, () -> AreaUncertainty.edgeCountUncertaintyPx(1, bad));
    }
  }
}
