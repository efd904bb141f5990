package org.diesurvey.classification.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class BoxSumsTest {
  @Test
  void sumsOfAnyRectangle_areThoseOfALoop() {
    int columns = 9;
    int rows = 7;
    SplittableRandom random = new SplittableRandom(3);
    float[] values = new float[columns * rows * 2];
    for (int i = 0; i < values.length; i++) {
      values[i] = (float) random.nextDouble(-1, 1);
    }
    BoxSums sums = new BoxSums(values, 2, columns, rows);
    double[] out = new double[2];
    for (int n = 0; n < 200; n++) {
      int r0 = random.nextInt(-3, rows + 3);
      int r1 = random.nextInt(-3, rows + 3);
      int c0 = random.nextInt(-3, columns + 3);
      int c1 = random.nextInt(-3, columns + 3);
      double[] expected = new double[2];
      int cells = 0;
      for (int r = Math.max(0, r0); r < Math.min(rows, r1); r++) {
        for (int c = Math.max(0, c0); c < Math.min(columns, c1); c++) {
          cells++;
          expected[0] += values[(r * columns + c) * 2];
          expected[1] += values[(r * columns + c) * 2 + 1];
        }
      }
      assertEquals(cells > 0, sums.sum(r0, r1, c0, c1, out));
      assertEquals(expected[0], out[0], 1e-9);
      assertEquals(expected[1], out[1], 1e-9);
    }
  }

  @Test
  void rectangleBesideTheGrid_holdsNothing() {
    BoxSums sums = new BoxSums(new float[] {1, 2, 3, 4}, 1, 2, 2);
    double[] out = {7};
    assertFalse(sums.sum(5, 9, 0, 2, out));
    assertEquals(0, out[0]);
    assertTrue(sums.sum(-4, 9, -4, 9, out));
    assertEquals(10, out[0]);
  }
}
