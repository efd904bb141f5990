package org.diesurvey.features;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.apache.commons.math3.complex.Complex;
import org.apache.commons.math3.transform.DftNormalization;
import org.apache.commons.math3.transform.FastFourierTransformer;
import org.apache.commons.math3.transform.TransformType;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.tiles.TileGrid;
import org.junit.jupiter.api.Test;

class LagProductsTest {
  private static final Level LEVEL = Level.ALL[0];

  private static GrayRaster random(int width, int height) {
    SplittableRandom random = new SplittableRandom(17);
    GrayRaster g = new GrayRaster(width, height);
    for (int i = 0; i < g.array().length; i++) {
      g.array()[i] = (float) random.nextGaussian();
    }
    return g;
  }

  private static final class Sums {
    final float[] zero;
    final float[][] alongX;
    final float[][] alongY;

    Sums(GrayRaster u, int firstRaster, TileGrid grid, int from, int to) {
      SumsBand band = new SumsBand(grid, 0, grid.rows());
      LevelPart.Tiles tiles = new LevelPart.Tiles(from, to, 0, grid.columns());
      LagProducts.sum(new LevelPart(u, 0, firstRaster, 1), 0, grid, tiles, band);
      zero = band.plane(SumsBand.zero(0));
      alongX = planes(band, SumsBand.alongX(0));
      alongY = planes(band, SumsBand.alongY(0));
    }
  }

  private static float[][] planes(SumsBand band, int first) {
    return IntStream.range(0, LEVEL.lags())
        .mapToObj(k -> band.plane(first + k))
        .toArray(float[][]::new);
  }

  /** Plain sums over every pair of pixels, tiles of 11.4 px. */
  @Test
  void sumsPerTile_equalPlainSumsOverPairs() {
    GrayRaster u = random(67, 53);
    TileGrid grid = new TileGrid(8, 0.7, 67, 53);
    Sums s = new Sums(u, 0, grid, 0, grid.rows());
    for (int t = 0; t < grid.count(); t++) {
      int r = t / grid.columns();
      int c = t % grid.columns();
      assertEquals(plain(u, grid, r, c, 0, 0), s.zero[t], 1e-3);
      for (int k = 0; k < LEVEL.lags(); k++) {
        int lag = LEVEL.firstLag() + k;
        assertEquals(plain(u, grid, r, c, lag, 0), s.alongX[k][t], 1e-3, t + " x " + lag);
        assertEquals(plain(u, grid, r, c, 0, lag), s.alongY[k][t], 1e-3, t + " y " + lag);
      }
    }
  }

  private static double plain(GrayRaster u, TileGrid grid, int r, int c, int dx, int dy) {
    double sum = 0;
    for (int y = grid.start(r, 1, 53); y < grid.start(r + 1, 1, 53); y++) {
      for (int x = grid.start(c, 1, 67); x < grid.start(c + 1, 1, 67); x++) {
        if (x + dx < 67 && y + dy < 53) {
          sum += u.get(x, y) * u.get(x + dx, y + dy);
        }
      }
    }
    return sum;
  }

  /**
   * Wiener-Khinchin theorem: the autocorrelation is the inverse transform of the power spectrum
   * (rows padded to twice their length, so that nothing wraps around). Transform: Apache Commons
   * Math.
   */
  @Test
  void sumsAlongX_areTheTransformOfThePowerSpectrum() {
    int width = 64;
    int height = 20;
    GrayRaster u = random(width, height);
    Sums s = new Sums(u, 0, new TileGrid(64, 1, width, height), 0, 1);
    FastFourierTransformer fft = new FastFourierTransformer(DftNormalization.STANDARD);
    double[] expected = new double[LEVEL.lags() + 1];
    for (int y = 0; y < height; y++) {
      double[] row = new double[2 * width];
      for (int x = 0; x < width; x++) {
        row[x] = u.get(x, y);
      }
      Complex[] f = fft.transform(row, TransformType.FORWARD);
      double[] power = new double[f.length];
      for (int i = 0; i < f.length; i++) {
        power[i] = f[i].abs() * f[i].abs();
      }
      Complex[] r = fft.transform(power, TransformType.INVERSE);
      for (int lag = 0; lag < expected.length; lag++) {
        expected[lag] += r[lag].getReal();
      }
    }
    assertEquals(expected[0], s.zero[0], 1e-2);
    for (int k = 0; k < LEVEL.lags(); k++) {
      assertEquals(expected[k + 1], s.alongX[k][0], 1e-2, "lag " + (k + 1));
    }
  }

  /** A tile row read as part of a band gives what it gives in the whole raster. */
  @Test
  void bandOfRows_givesTheSameBits() {
    GrayRaster whole = random(67, 120);
    TileGrid grid = new TileGrid(8, 0.7, 67, 120);
    Sums all = new Sums(whole, 0, grid, 0, grid.rows());
    int first = grid.start(3, 1, 120) - 7;
    int rows = grid.start(5, 1, 120) + 30 - first;
    GrayRaster cut = new GrayRaster(67, rows);
    System.arraycopy(whole.array(), first * 67, cut.array(), 0, rows * 67);
    Sums part = new Sums(cut, first, grid, 3, 5);
    for (int t = 3 * grid.columns(); t < 5 * grid.columns(); t++) {
      assertEquals(all.zero[t], part.zero[t]);
      for (int k = 0; k < LEVEL.lags(); k++) {
        assertEquals(all.alongX[k][t], part.alongX[k][t]);
        assertEquals(all.alongY[k][t], part.alongY[k][t]);
      }
    }
  }
}
