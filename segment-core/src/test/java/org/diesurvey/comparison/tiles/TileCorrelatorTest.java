package org.diesurvey.comparison.tiles;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import org.apache.commons.math3.stat.correlation.PearsonsCorrelation;
import org.diesurvey.raster.GrayRaster;
import org.junit.jupiter.api.Test;

class TileCorrelatorTest {
  private static final int SIDE = 6;

  private static GrayRaster noise(long seed, int w, int h) {
    SplittableRandom random = new SplittableRandom(seed);
    float[] v = new float[w * h];
    for (int i = 0; i < v.length; i++) {
      v[i] = (float) (2 * random.nextDouble() - 1);
    }
    return GrayRaster.over(w, h, v);
  }

  private static GrayRaster shifted(GrayRaster in, int dx, int dy) {
    float[] out = new float[in.array().length];
    for (int y = Math.max(0, dy); y < Math.min(in.height(), in.height() + dy); y++) {
      for (int x = Math.max(0, dx); x < Math.min(in.width(), in.width() + dx); x++) {
        out[y * in.width() + x] = in.get(x - dx, y - dy);
      }
    }
    return GrayRaster.over(in.width(), in.height(), out);
  }

  @Test
  void shiftedPicture_correlatesFullyAtItsShiftOnly() {
    GrayRaster a = noise(1, 60, 48);
    TileCorrelator tiles = new TileCorrelator(a, shifted(a, 3, -2), SIDE);
    int middle = 4 * tiles.columns + 5;
    assertEquals(1, tiles.at(3, -2)[middle], 1e-5);
    assertTrue(Math.abs(tiles.at(0, 0)[middle]) < 0.3);
    assertEquals(1, tiles.best(2, -1, 1)[middle], 1e-5);
  }

  /** Against the correlation coefficient of a general-purpose library (Apache Commons Math). */
  @Test
  void windowOfATile_agreesWithPearson() {
    GrayRaster a = noise(2, 60, 48);
    GrayRaster b = noise(3, 60, 48);
    for (int i = 0; i < b.array().length; i++) {
      b.array()[i] = 0.5f * b.array()[i] + 0.5f * a.array()[i];
    }
    TileCorrelator tiles = new TileCorrelator(a, b, SIDE);
    double[] x = new double[9 * SIDE * SIDE];
    double[] y = new double[x.length];
    int n = 0;
    for (int r = 3 * SIDE; r < 6 * SIDE; r++) {
      for (int c = 4 * SIDE; c < 7 * SIDE; c++) {
        x[n] = a.get(c, r);
        y[n++] = b.get(c, r);
      }
    }
    // Structure has no mean, so the two differ by what the means of a window are worth.
    assertEquals(
        new PearsonsCorrelation().correlation(x, y), tiles.at(0, 0)[4 * tiles.columns + 5], 0.02);
  }

  /** Also where the second picture ends inside a tile, and where the shift leaves it. */
  @Test
  void bestOfShifts_isThatOfTheDefinition_forAllTilesAndForSingleOnes() {
    GrayRaster a = noise(5, 64, 47);
    GrayRaster b = noise(6, 64, 47);
    TileCorrelator tiles = new TileCorrelator(a, b, SIDE);
    int[][] shifts = {{0, 0}, {5, -3}, {-13, 7}, {40, 2}, {-70, 0}, {0, 45}};
    for (int[] s : shifts) {
      float[] best = tiles.best(s[0], s[1], 1);
      ShiftedTiles single = new ShiftedTiles(tiles, s[0], s[1]);
      for (int i = 0; i < best.length; i++) {
        double most = -2;
        for (int k = 0; k < 9; k++) {
          most = Math.max(most, byDefinition(a, b, tiles, i, s[0] + k % 3 - 1, s[1] + k / 3 - 1));
        }
        assertEquals(most, best[i], 1e-4);
        assertEquals(best[i], single.at(i), "the same bits");
      }
    }
  }

  private static double byDefinition(
      GrayRaster a, GrayRaster b, TileCorrelator tiles, int tile, int dx, int dy) {
    double product = 0;
    double squareA = 0;
    double squareB = 0;
    for (int y = (tile / tiles.columns - 1) * SIDE; y < (tile / tiles.columns + 2) * SIDE; y++) {
      for (int x = (tile % tiles.columns - 1) * SIDE; x < (tile % tiles.columns + 2) * SIDE; x++) {
        if (x >= 0 && y >= 0 && x < tiles.columns * SIDE && y < tiles.rows * SIDE) {
          double p = a.get(x, y);
          boolean in = x + dx >= 0 && y + dy >= 0 && x + dx < b.width() && y + dy < b.height();
          double q = in ? b.get(x + dx, y + dy) : 0;
          product += p * q;
          squareA += p * p;
          squareB += q * q;
        }
      }
    }
    return squareA * squareB > 1e-12 ? product / Math.sqrt(squareA * squareB) : 0;
  }

  @Test
  void sumOverTiles_isHighestAtTheShift_andIgnoresOtherTiles() {
    GrayRaster a = noise(4, 60, 48);
    GrayRaster b = shifted(a, -4, 5);
    TileCorrelator tiles = new TileCorrelator(a, b, SIDE);
    boolean[] some = new boolean[tiles.count()];
    some[3 * tiles.columns + 4] = true;
    some[3 * tiles.columns + 5] = true;
    double there = tiles.sum(some, -4, 5);
    for (int dy = 2; dy < 8; dy++) {
      for (int dx = -7; dx < 0; dx++) {
        assertTrue(there >= tiles.sum(some, dx, dy));
      }
    }
    // Beyond the edge there is nothing to sum.
    assertEquals(0, tiles.sum(some, 1000, 0));
  }
}
