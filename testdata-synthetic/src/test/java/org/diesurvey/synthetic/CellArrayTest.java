package org.diesurvey.synthetic;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CellArrayTest {
  private static final double PX_PER_UM = 8;

  /** An L in the corner of the cell: mirroring doubles the period, both ways. */
  private static BitCell cell(double w, double h, boolean mirrorX, boolean mirrorY) {
    List<Shape> shapes =
        List.of(
            Shape.diffusion(0.1 * w, 0.1 * h, 0.2 * w, 0.6 * h),
            Shape.diffusion(0.1 * w, 0.1 * h, 0.5 * w, 0.15 * h));
    return new BitCell("test", w, h, shapes, 0, List.of(), 0, List.of(), mirrorX, mirrorY);
  }

  @ParameterizedTest(name = "{0} x {1} um, mirrored {2} {3}")
  @CsvSource({
    "2.5, 1.25, true, true",
    "2.5, 1.25, false, false",
    "1.6, 2.3, true, false",
    "1.17, 0.93, false, true"
  })
  void drawnArray_repeatsWithTheStatedPitch(double w, double h, boolean mirrorX, boolean mirrorY) {
    CellArray array =
        CellArray.of(
            new CellArray.Rule(cell(w, h, mirrorX, mirrorY), 0, 0, false), 40, 40, new Dice(1));
    Canvas canvas = new Canvas(new RectUm(0, 0, array.width(), array.height()), PX_PER_UM);
    array.paint(Pen.on(canvas));
    double periodX = period(canvas, true, w * 0.6, w * (mirrorX ? 2.9 : 1.5));
    double periodY = period(canvas, false, h * 0.6, h * (mirrorY ? 2.9 : 1.5));
    assertEquals(mirrorX ? 2 * w : w, periodX, 0.5 / PX_PER_UM);
    assertEquals(mirrorY ? 2 * h : h, periodY, 0.5 / PX_PER_UM);
  }

  @Test
  void turnedArray_exchangesItsPeriods() {
    CellArray array =
        CellArray.of(
            new CellArray.Rule(cell(2, 1, false, false), 0, 0, false), 30, 60, new Dice(1));
    Canvas canvas = new Canvas(new RectUm(0, 0, array.height(), array.width()), PX_PER_UM);
    array.paint(Pen.on(canvas).block(0, 0, array.width(), array.height(), 4));
    assertEquals(1, period(canvas, true, 0.6, 1.4), 0.5 / PX_PER_UM);
    assertEquals(2, period(canvas, false, 1.2, 2.8), 0.5 / PX_PER_UM);
  }

  @Test
  void coverage_isTheDrawnAreaWhateverTheSampling() {
    BitCell cell = cell(1.3, 0.7, true, true);
    CellArray array = CellArray.of(new CellArray.Rule(cell, 0, 0, false), 24, 24, new Dice(1));
    // Area of the L: upright 0.2 x 0.6, bar 0.5 x 0.15, counted twice where they overlap.
    double drawn = array.bits() * (0.2 * 0.6 + 0.5 * 0.15) * 1.3 * 0.7;
    for (double pxPerUm : new double[] {0.7, 2.1, 9}) {
      Canvas canvas =
          new Canvas(new RectUm(-3, -3, array.width() + 6, array.height() + 6), pxPerUm);
      array.paint(Pen.on(canvas));
      double sum = 0;
      for (float v : canvas.plane(Layer.DIFFUSION)) {
        sum += v;
      }
      assertEquals(drawn, sum / (pxPerUm * pxPerUm), 1e-3 * drawn, "at " + pxPerUm + " px/um");
    }
  }

  /** Lag of the highest autocorrelation of the diffusion plane between two lags, in um. */
  private static double period(Canvas canvas, boolean alongX, double lowUm, double highUm) {
    float[] plane = canvas.plane(Layer.DIFFUSION);
    int w = canvas.widthPx;
    int h = canvas.heightPx;
    double mean = 0;
    for (float v : plane) {
      mean += v;
    }
    mean /= plane.length;
    double best = Double.NEGATIVE_INFINITY;
    int bestLag = 0;
    int last = (int) (highUm * PX_PER_UM);
    for (int lag = (int) Math.ceil(lowUm * PX_PER_UM); lag <= last; lag++) {
      double sum = 0;
      long pairs = 0;
      for (int y = 0; y + (alongX ? 0 : lag) < h; y++) {
        for (int x = 0; x + (alongX ? lag : 0) < w; x++) {
          int i = y * w + x;
          sum += (plane[i] - mean) * (plane[i + (alongX ? lag : lag * w)] - mean);
          pairs++;
        }
      }
      if (sum / pairs > best + 1e-9) {
        best = sum / pairs;
        bestLag = lag;
      }
    }
    assertTrue(best > 0, "no peak");
    return bestLag / PX_PER_UM;
  }
}
