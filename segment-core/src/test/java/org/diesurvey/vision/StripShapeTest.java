package org.diesurvey.vision;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.diesurvey.raster.LabelRaster;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Rectangles drawn at an angle; a rectangle of sides a, b has the moments a² / 12 and b² / 12. */
class StripShapeTest {
  private static final int SIDE = 240;

  @ParameterizedTest(name = "{0} by {1} at {2} degrees")
  @CsvSource({
    "160, 20, 0, 0",
    "160, 20, 90, 0",
    "160, 20, 17, 17",
    "150, 30, 118, 28",
    "90, 12, 45, 45"
  })
  void aRectangle_hasItsSidesAndItsAngle(
      double length, double width, double angleDeg, double offAxisDeg) {
    double c = Math.cos(Math.toRadians(angleDeg));
    double s = Math.sin(Math.toRadians(angleDeg));
    byte[] cells = new byte[SIDE * SIDE];
    for (int i = 0; i < cells.length; i++) {
      double x = i % SIDE - SIDE / 2.0;
      double y = i / SIDE - SIDE / 2.0;
      boolean inside =
          Math.abs(x * c + y * s) <= length / 2 && Math.abs(-x * s + y * c) <= width / 2;
      cells[i] = (byte) (inside ? 1 : 0);
    }
    Components.Labelling parts = Components.label(LabelRaster.over(SIDE, SIDE, cells));
    StripShape shape = StripShape.of(parts, parts.components().get(0), SIDE);
    assertEquals(length, shape.length(), 1.5);
    assertEquals(width, shape.width(), 1.5);
    assertEquals(offAxisDeg, shape.offAxisDeg(), 0.8);
  }
}
