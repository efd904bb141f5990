package org.diesurvey.measures;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import org.diesurvey.quantity.Measured;
import org.junit.jupiter.api.Test;

class AreaUncertaintyTest {
  private static final Measured HALF_PERCENT = new Measured(0.25, 0.00125);

  /** Own arithmetic from JCGM 100:2008, equation 10: 0.0625 mm2, relative 0.010198. */
  @Test
  void millionPixelsAtHalfPercentScale_isOnePercentUncertain() {
    Measured area = AreaUncertainty.ofCountMm2(new Measured(1e6, 2000), HALF_PERCENT).joined();
    assertEquals(0.0625, area.value(), 1e-12);
    assertEquals(0.010198, area.relativeUncertainty(), 1e-6);
    assertEquals(637.4, area.standardUncertainty() * 1e6, 0.1);
  }

  /** One common pitch: the total of many regions stays as uncertain as the scale makes it. */
  @Test
  void total_keepsTheScaleTermAndAveragesTheEdges() {
    List<Measured> regions = java.util.Collections.nCopies(100, new Measured(1e4, 100));
    Measured total = AreaUncertainty.totalMm2(regions, HALF_PERCENT).joined();
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
  }

  @Test
  void nothingAtAll_isAnArea_butNoPitchIsNoScale() {
    assertEquals(0, AreaUncertainty.ofCountMm2(Measured.exact(0), HALF_PERCENT).value());
    assertThrows(
        IllegalArgumentException.class,
        () -> AreaUncertainty.ofCountMm2(Measured.exact(1), Measured.exact(0)));
  }
}
