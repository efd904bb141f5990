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
      for (int k = first; k <= end; k++) {
        int from = k * columns;
        int to = r * columns;
        for (int c = 0; c < columns; c++) {
          out[to + c] += across[from + c];
        }
      }
    }
    return out;
  }
}
