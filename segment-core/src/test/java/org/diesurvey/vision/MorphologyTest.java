package org.diesurvey.vision;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Random;
import org.diesurvey.raster.LabelRaster;
import org.junit.jupiter.api.Test;

/** Against the definitions: the largest and the smallest value in the square around a cell. */
class MorphologyTest {
  private static final int W = 37;
  private static final int H = 23;

  private static LabelRaster random(double share) {
    Random random = new Random(5);
    byte[] cells = new byte[W * H];
    for (int i = 0; i < cells.length; i++) {
      cells[i] = (byte) (random.nextDouble() < share ? 1 : 0);
    }
    return LabelRaster.over(W, H, cells);
  }

  private static LabelRaster extreme(LabelRaster of, int radius, boolean largest) {
    LabelRaster out = new LabelRaster(W, H);
    for (int y = 0; y < H; y++) {
      for (int x = 0; x < W; x++) {
        int value = largest ? 0 : 1;
        for (int v = Math.max(0, y - radius); v <= Math.min(H - 1, y + radius); v++) {
          for (int u = Math.max(0, x - radius); u <= Math.min(W - 1, x + radius); u++) {
            int there = of.get(u, v);
            value = largest ? Math.max(value, there) : Math.min(value, there);
          }
        }
        out.set(x, y, value);
      }
    }
    return out;
  }

  @Test
  void allFour_areAsDefined() {
    for (int r = 1; r <= 3; r++) {
      LabelRaster thin = random(0.05);
      LabelRaster dense = random(0.95);
      assertArrayEquals(extreme(thin, r, true).array(), Morphology.dilate(thin, r).array());
      assertArrayEquals(extreme(dense, r, false).array(), Morphology.erode(dense, r).array());
      assertArrayEquals(
          extreme(extreme(dense, r, false), r, true).array(), Morphology.open(dense, r).array());
      assertArrayEquals(
          extreme(extreme(thin, r, true), r, false).array(), Morphology.close(thin, r).array());
    }
  }

  @Test
  void noRadius_changesNothing_andANegativeOneIsRefused() {
    LabelRaster some = random(0.5);
    assertSame(some, Morphology.open(some, 0));
    assertThrows(IllegalArgumentException.class, () -> Morphology.dilate(some, -1));
  }
}
