package org.diesurvey.features;

import org.diesurvey.tiles.TileGrid;

/**
 * Sums of some rows of tiles while they are formed. Planes: those of {@link TextureSums}, the sums
 * at lag 0 for each level, those of all lags along the rows, those along the columns.
 */
final class SumsBand {
  private static final int ZERO = TextureSums.planes();
  private static final int ALONG_X = ZERO + Level.ALL.length;
  private static final int ALONG_Y = ALONG_X + Level.totalLags();

  /** Number of planes. */
  static final int PLANES = ALONG_Y + Level.totalLags();

  private final int firstRow;
  private final int rows;
  private final int columns;
  private final float[][] planes = new float[PLANES][];

  /**
   * @param firstRow first row of tiles
   * @param endRow row after the last
   */
  SumsBand(TileGrid grid, int firstRow, int endRow) {
    this.firstRow = firstRow;
    this.rows = endRow - firstRow;
    this.columns = grid.columns();
  }

  /** Plane of the sums at lag 0 of a level. */
  static int zero(int level) {
    return ZERO + level;
  }

  /** Plane of the sums at a lag along the rows, numbered over all levels. */
  static int alongX(int lag) {
    return ALONG_X + lag;
  }

  /** The same along the columns. */
  static int alongY(int lag) {
    return ALONG_Y + lag;
  }

  /** Values of a plane, see {@link #at}; made when first asked for. */
  float[] plane(int plane) {
    if (planes[plane] == null) {
      planes[plane] = new float[rows * columns];
    }
    return planes[plane];
  }

  /** Index of a tile in every plane. */
  int at(int row, int column) {
    return (row - firstRow) * columns + column;
  }

  /** Puts what was formed into the store, a row of it for each row of tiles, plane by plane. */
  void store(RowStore into) {
    for (int p = 0; p < PLANES; p++) {
      for (int r = 0; planes[p] != null && r < rows; r++) {
        into.put(firstRow + r, p * columns, planes[p], r * columns, columns);
      }
    }
  }
}
