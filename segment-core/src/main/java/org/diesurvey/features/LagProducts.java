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
   * Sums over tiles for all lags of a level.
   *
   * @param pattern of this level's reduction, see {@link LocalContrast}
   * @param level number of the level
   * @param tiles whose pixels lie in the part
   */
  static void sum(
      LevelPart pattern, int level, TileGrid grid, LevelPart.Tiles tiles, SumsBand sums) {
    GrayRaster u = pattern.raster();
    int w = u.width();
    float[] a = u.array();
    float[] acc = new float[w];
    int[] xs = pattern.tileLefts(grid, tiles);
    int number = Level.firstLagNumber(level);
    for (int r = tiles.row(); r < tiles.rowEnd(); r++) {
      int y0 = pattern.tileTop(grid, r);
      int y1 = pattern.tileTop(grid, r + 1);
      int at = sums.at(r, tiles.column());
      rowSums(a, w, y0, y1, 0, 0, acc);
      toTiles(acc, xs, sums.plane(SumsBand.zero(level)), at);
      for (int k = 0; k < Level.ALL[level].lags(); k++) {
        int lag = Level.ALL[level].firstLag() + k;
        rowSums(a, w, y0, y1, lag, 0, acc);
        toTiles(acc, xs, sums.plane(SumsBand.alongX(number + k)), at);
        int last = Math.min(y1, u.height() - lag);
        rowSums(a, w, y0, last, 0, lag, acc);
        toTiles(acc, xs, sums.plane(SumsBand.alongY(number + k)), at);
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
