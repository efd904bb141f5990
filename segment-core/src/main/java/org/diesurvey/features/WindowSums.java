package org.diesurvey.features;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.diesurvey.tiles.TileGrid;

/** Sums of tile planes over square windows of tiles, cut at the die's border. */
final class WindowSums {
  private final int columns;
  private final int planes;
  private final int reach;
  private final double[] until;

  /**
   * @param planes in each row of tiles
   * @param reach tiles to each side
   */
  WindowSums(int columns, int planes, int reach) {
    this.columns = columns;
    this.planes = planes;
    this.reach = reach;
    this.until = new double[columns + 1];
  }

  /**
   * Sums along a row of tiles.
   *
   * @param row plane after plane
   */
  float[] across(float[] row) {
    float[] out = new float[planes * columns];
    for (int p = 0; p < planes; p++) {
      int base = p * columns;
      for (int c = 0; c < columns; c++) {
        until[c + 1] = until[c] + row[base + c];
      }
      for (int c = 0; c < columns; c++) {
        int end = Math.min(columns, c + reach + 1);
        out[base + c] = (float) (until[end] - until[Math.max(0, c - reach)]);
      }
    }
    return out;
  }

  /**
   * Sums of rows that were summed across.
   *
   * @param across the rows, in their order
   * @param first the window's first row
   * @param end its last row
   * @param out replaced
   */
  static void down(float[][] across, int first, int end, float[] out) {
    Arrays.fill(out, 0);
    int k = first;
    for (; k + 3 <= end; k += 4) {
      addFour(across[k], across[k + 1], across[k + 2], across[k + 3], out);
    }
    for (; k <= end; k++) {
      add(across[k], out);
    }
  }

  private static void add(float[] a, float[] out) {
    for (int c = 0; c < out.length; c++) {
      out[c] += a[c];
    }
  }

  /** Four rows at once, added in their order: the same sums with a quarter of the stores. */
  private static void addFour(float[] a, float[] b, float[] c, float[] d, float[] out) {
    for (int i = 0; i < out.length; i++) {
      out[i] = out[i] + a[i] + b[i] + c[i] + d[i];
    }
  }

  /**
   * Sums of whole planes.
   *
   * @param planes row-major per tile
   * @param reach tiles to each side
   * @return one summed plane for each plane
   */
  static float[][] of(float[][] planes, TileGrid grid, int reach) {
    return IntStream.range(0, planes.length)
        .parallel()
        .mapToObj(i -> one(planes[i], grid.rows(), grid.columns(), reach))
        .toArray(float[][]::new);
  }

  private static float[] one(float[] plane, int rows, int columns, int reach) {
    WindowSums sums = new WindowSums(columns, 1, reach);
    float[][] across = new float[rows][];
    for (int r = 0; r < rows; r++) {
      across[r] = sums.across(Arrays.copyOfRange(plane, r * columns, (r + 1) * columns));
    }
    float[] out = new float[plane.length];
    float[] row = new float[columns];
    for (int r = 0; r < rows; r++) {
      down(across, Math.max(0, r - reach), Math.min(rows - 1, r + reach), row);
      System.arraycopy(row, 0, out, r * columns, columns);
    }
    return out;
  }
}
