package org.diesurvey.classification.model;

/** Sums of planes over any rectangle of tiles, from running totals. */
final class BoxSums {
  private final int columns;
  private final int rows;
  private final int planes;
  private final double[] total;

  /**
   * @param values tile-major, the given number of planes a tile
   */
  BoxSums(float[] values, int planes, int columns, int rows) {
    this.columns = columns;
    this.rows = rows;
    this.planes = planes;
    this.total = new double[(columns + 1) * (rows + 1) * planes];
    int line = (columns + 1) * planes;
    for (int r = 0; r < rows; r++) {
      for (int p = 0; p < planes; p++) {
        double sum = 0;
        for (int c = 0; c < columns; c++) {
          sum += values[(r * columns + c) * planes + p];
          int at = (r + 1) * line + (c + 1) * planes + p;
          total[at] = total[at - line] + sum;
        }
      }
    }
  }

  /**
   * Writes the sums over a rectangle, cut at the border; the ends are not part of it.
   *
   * @return whether any tile is inside
   */
  boolean sum(int fromRow, int toRow, int fromColumn, int toColumn, double[] out) {
    int r0 = Math.max(0, Math.min(rows, fromRow));
    int r1 = Math.max(0, Math.min(rows, toRow));
    int c0 = Math.max(0, Math.min(columns, fromColumn));
    int c1 = Math.max(0, Math.min(columns, toColumn));
    if (r1 <= r0 || c1 <= c0) {
      java.util.Arrays.fill(out, 0);
      return false;
    }
    int line = (columns + 1) * planes;
    for (int p = 0; p < planes; p++) {
      out[p] =
          total[r1 * line + c1 * planes + p]
              - total[r0 * line + c1 * planes + p]
              - total[r1 * line + c0 * planes + p]
              + total[r0 * line + c0 * planes + p];
    }
    return true;
  }
}
