package org.diesurvey.features;

import java.util.stream.IntStream;
import org.diesurvey.tiles.TileGrid;

/** Sums of tile planes over square windows of tiles, cut at the die's border. */
final class WindowSums {
  private WindowSums() {}

  /**
   * @param planes row-major per tile
   * @param reach tiles to each side
   * @return one summed plane for each plane
   */
  static float[][] of(float[][] planes, TileGrid grid, int reach) {
    float[][] out = new float[planes.length][];
    IntStream.range(0, planes.length)
        .parallel()
        .forEach(i -> out[i] = one(planes[i], grid.rows(), grid.columns(), reach));
    return out;
  }

  private static float[] one(float[] plane, int rows, int columns, int reach) {
    float[] across = new float[plane.length];
    double[] until = new double[columns + 1];
    for (int r = 0; r < rows; r++) {
      int base = r * columns;
      for (int c = 0; c < columns; c++) {
        until[c + 1] = until[c] + plane[base + c];
      }
      for (int c = 0; c < columns; c++) {
        int end = Math.min(columns, c + reach + 1);
        across[base + c] = (float) (until[end] - until[Math.max(0, c - reach)]);
      }
    }
    float[] out = new float[plane.length];
    for (int r = 0; r < rows; r++) {
      int first = Math.max(0, r - reach);
      int end = Math.min(rows - 1, r + reach);
      int k = first;
      for (; k + 3 <= end; k += 4) {
        addFour(across, k * columns, columns, out, r * columns);
      }
      for (; k <= end; k++) {
        int from = k * columns;
        int to = r * columns;
        for (int c = 0; c < columns; c++) {
          out[to + c] += across[from + c];
        }
      }
    }
    return out;
  }

  /** Four rows at once, added in their order: the same sums with a quarter of the stores. */
  private static void addFour(float[] a, int from, int columns, float[] out, int to) {
    int second = from + columns;
    int third = second + columns;
    int fourth = third + columns;
    for (int c = 0; c < columns; c++) {
      out[to + c] = out[to + c] + a[from + c] + a[second + c] + a[third + c] + a[fourth + c];
    }
  }
}
