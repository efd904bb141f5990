package org.diesurvey.scoring;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.diesurvey.raster.LabelRaster;
import org.junit.jupiter.api.Test;

class GroundScoreTest {
  private static LabelRaster map(int... codes) {
    byte[] b = new byte[codes.length];
    for (int i = 0; i < b.length; i++) {
      b[i] = (byte) codes[i];
    }
    return LabelRaster.over(codes.length, 1, b);
  }

  /** Of four bare places one is called logic and one memory; elsewhere nothing counts. */
  @Test
  void everyClassOnBareGround_isAFalseAlarm() {
    LabelRaster ground = map(255, 255, 255, 255, 0, 0);
    assertEquals(0.5, GroundScore.falseAlarms(ground, map(255, 3, 0, 1, 3, 4)));
  }

  @Test
  void noBareGround_isNoFigure() {
    assertTrue(Double.isNaN(GroundScore.falseAlarms(map(0, 0), map(1, 2))));
  }

  @Test
  void mapsOfOtherSizes_areRefused() {
    assertThrows(
        IllegalArgumentException.class, () -> GroundScore.falseAlarms(map(255), map(1, 2)));
  }
}
