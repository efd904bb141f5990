package org.diesurvey.preparation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.apache.commons.math3.stat.correlation.PearsonsCorrelation;
import org.diesurvey.raster.GrayRaster;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PreparedDieTest {
  /** No symmetry: a turn the wrong way round or a mirror image would not fit. */
  private static double pattern(double u, double v) {
    return 0.5
        + 0.15 * Math.sin(u / 3.1)
        + 0.12 * Math.sin(v / 4.3 + u / 19)
        + (u > 60 && u < 110 && v > 30 && v < 55 ? 0.15 : 0);
  }

  private static PreparedDie prepared(TurnedDie die, int bin, DrawnSource.Grey light) {
    DrawnSource photo =
        DrawnSource.of(420, 380, (x, y) -> pattern(die.u(x, y), die.v(x, y)) * light.at(x, y));
    return PreparedDie.of(photo, new DieLocation(true, die.corners(), die.deg(), 0.3), bin);
  }

  private static double[] expected(int width, int y, int rows, int bin) {
    double[] out = new double[width * rows];
    for (int r = 0; r < rows; r++) {
      for (int x = 0; x < width; x++) {
        double sum = 0;
        for (int i = 0; i < 16; i++) {
          sum += pattern((x + (i % 4 + 0.5) / 4) * bin, (y + r + (i / 4 + 0.5) / 4) * bin);
        }
        out[r * width + x] = sum / 16;
      }
    }
    return out;
  }

  private static double correlation(GrayRaster is, double[] was) {
    double[] values = new double[was.length];
    for (int i = 0; i < values.length; i++) {
      values[i] = is.array()[i];
    }
    return new PearsonsCorrelation().correlation(values, was);
  }

  @ParameterizedTest(name = "{0} deg, bin {1}")
  @CsvSource({"-12, 1", "-3.3, 1", "0, 1", "0.5, 1", "9, 1", "0, 2", "6, 2", "-8, 3"})
  void rowsOfATurnedDie_showItsPatternUpright(double deg, int bin) {
    TurnedDie die = new TurnedDie(211.2, 188.6, 300, 252, deg);
    PreparedDie upright = prepared(die, bin, (x, y) -> 1);
    assertEquals(300 / bin, upright.width(), 1);
    assertEquals(252 / bin, upright.height(), 1);
    int y = 20 / bin;
    int rows = 200 / bin;
    GrayRaster r = upright.rows(y, rows);
    double c = correlation(r, expected(upright.width(), y, rows, bin));
    assertTrue(c > 0.98, "correlation " + c);
  }

  /** Bands must join: the same row is the same whatever band it is read in. */
  @ParameterizedTest(name = "{0} deg")
  @CsvSource({"0", "4", "-10"})
  void row_doesNotDependOnItsBand(double deg) {
    PreparedDie upright = prepared(new TurnedDie(211.2, 188.6, 300, 252, deg), 1, (x, y) -> 1);
    GrayRaster whole = upright.rows(0, 252);
    GrayRaster band = upright.rows(93, 31);
    double worst = 0;
    for (int i = 0; i < 31 * 300; i++) {
      worst = Math.max(worst, Math.abs(band.array()[i] - whole.array()[93 * 300 + i]));
    }
    assertTrue(worst < 0.005, "off by " + worst);
  }

  @Test
  void fallOffOfLight_isTakenOut() {
    TurnedDie die = new TurnedDie(211.2, 188.6, 300, 252, 3);
    DrawnSource.Grey vignette =
        (x, y) -> Math.exp(-0.5 * (Math.pow((x - 211) / 150, 2) + Math.pow((y - 188) / 126, 2)));
    PreparedDie upright = prepared(die, 1, vignette);
    double c = correlation(upright.rows(20, 200), expected(300, 20, 200, 1));
    assertTrue(c > 0.97, "correlation " + c);
  }

  @Test
  void uprightToPhoto_bringsCornersToCorners() {
    TurnedDie die = new TurnedDie(211.2, 188.6, 300, 252, 7);
    PreparedDie upright = prepared(die, 2, (x, y) -> 1);
    assertEquals(die.corners().get(2).x(), upright.uprightToPhoto().x(150, 126), 1e-9);
    assertEquals(die.corners().get(2).y(), upright.uprightToPhoto().y(150, 126), 1e-9);
  }

  @Test
  void photoWithoutDieEdge_isSurveyedAsAWholeTurnedToItsLayout() {
    TurnedDie frame = new TurnedDie(250, 250, 500, 500, 5);
    DrawnSource photo =
        DrawnSource.of(
            500,
            500,
            (x, y) -> {
              double u = frame.u(x, y) + 1000;
              double v = frame.v(x, y) + 1000;
              return 0.35
                  + 0.25 * LayoutDirectionTest.bar(u, 23, 9) * LayoutDirectionTest.bar(v, 17, 10);
            });
    DieLocation found = PreparedDie.locate(photo);
    assertEquals(false, found.edgeFound());
    assertEquals(5, found.rotationDeg(), 0.2);
    double side = 500 * (Math.cos(Math.toRadians(5)) + Math.sin(Math.toRadians(5)));
    assertEquals(side, found.widthPx(), 2);
  }
}
