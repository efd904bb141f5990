package org.diesurvey.features;

import org.diesurvey.raster.GrayRaster;
import org.diesurvey.tiles.TileGrid;

/**
 * Sums of products u(p) u(p + lag) per tile, along the rows and along the columns: local
 * autocorrelation before it is normalised. Sums over windows of tiles are sums of these.
 */
final class LagProducts {
  private LagProducts() {}

  /**
   * Fills the sums for the tile rows that lie in a raster.
   *
   * @param u pattern of this level
   * @param firstRaster row of the level at which u starts
   * @param tileRow first tile row to fill
   * @param tileRowEnd tile row after the last
   * @param zero sums of u squared, row-major per tile
   * @param alongX per lag of the level, row-major per tile
   * @param alongY per lag of the level, row-major per tile
   */
  static void sum(
      GrayRaster u,
      int firstRaster,
      Level level,
      int levelHeight,
      TileGrid grid,
      int tileRow,
      int tileRowEnd,
      float[] zero,
      float[][] alongX,
      float[][] alongY) {
    int w = u.width();
    float[] a = u.array();
    float[] acc = new float[w];
    int columns = grid.columns();
    int[] xs = new int[columns + 1];
    for (int c = 0; c <= columns; c++) {
      xs[c] = grid.start(c, level.reduction(), w);
    }
    for (int r = tileRow; r < tileRowEnd; r++) {
      int y0 = grid.start(r, level.reduction(), levelHeight) - firstRaster;
      int y1 = grid.start(r + 1, level.reduction(), levelHeight) - firstRaster;
      rowSums(a, w, y0, y1, 0, 0, acc);
      toTiles(acc, xs, zero, r * columns);
      for (int k = 0; k < level.lags(); k++) {
        int lag = level.firstLag() + k;
        rowSums(a, w, y0, y1, lag, 0, acc);
        toTiles(acc, xs, alongX[k], r * columns);
        int last = Math.min(y1, u.height() - lag);
        rowSums(a, w, y0, last, 0, lag, acc);
        toTiles(acc, xs, alongY[k], r * columns);
      }
    }
  }

  private static void rowSums(float[] a, int w, int y0, int y1, int dx, int dy, float[] acc) {
    java.util.Arrays.fill(acc, 0);
    int n = w - dx;
    int step = dy * w + dx;
    int y = y0;
    for (; y + 3 < y1; y += 4) {
      addFour(a, y * w, w, step, n, acc);
    }
    for (; y < y1; y++) {
      addProducts(a, y * w, y * w + step, n, acc);
    }
  }

  /** Kept small so that the compiler vectorises it. */
  private static void addProducts(float[] a, int from, int to, int n, float[] acc) {
    for (int x = 0; x < n; x++) {
      acc[x] += a[from + x] * a[to + x];
    }
  }

  /** Four rows at once, added in their order: the same sums with a quarter of the stores. */
  private static void addFour(float[] a, int from, int w, int step, int n, float[] acc) {
    int second = from + w;
    int third = second + w;
    int fourth = third + w;
    for (int x = 0; x < n; x++) {
      acc[x] =
          acc[x]
              + a[from + x] * a[from + step + x]
              + a[second + x] * a[second + step + x]
              + a[third + x] * a[third + step + x]
              + a[fourth + x] * a[fourth + step + x];
    }
  }

  private static void toTiles(float[] acc, int[] xs, float[] plane, int at) {
    for (int c = 0; c + 1 < xs.length; c++) {
      float sum = 0;
      for (int x = xs[c]; x < xs[c + 1]; x++) {
        sum += acc[x];
      }
      plane[at + c] = sum;
    }
  }
}
