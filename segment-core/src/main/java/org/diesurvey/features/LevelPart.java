package org.diesurvey.features;

import org.diesurvey.raster.GrayRaster;
import org.diesurvey.raster.PixelRect;
import org.diesurvey.tiles.TileGrid;

/**
 * A part of the upright die, reduced: the pixels of some tiles and as much around them as the
 * filters and lags reach.
 *
 * @param raster its pixels
 * @param left column of the whole reduced raster at which they start
 * @param top row at which they start
 * @param reduction working px per px, a power of two
 */
record LevelPart(GrayRaster raster, int left, int top, int reduction) {
  /** Px of the level around the tiles that any filter or lag of {@link Level} reaches. */
  static final int MARGIN_PX = 72;

  /**
   * Tiles whose sums are formed: some rows, some columns.
   *
   * @param row first row
   * @param rowEnd row after the last
   * @param column first column
   * @param columnEnd column after the last
   */
  record Tiles(int row, int rowEnd, int column, int columnEnd) {
    /** All tiles of a grid. */
    static Tiles all(TileGrid grid) {
      return new Tiles(0, grid.rows(), 0, grid.columns());
    }

    /** The same as columns and rows. */
    PixelRect asRect() {
      return new PixelRect(column, row, columnEnd - column, rowEnd - row);
    }
  }

  /** Columns of the whole reduced raster. */
  static int width(TileGrid grid, int reduction) {
    return Math.max(1, grid.width() / reduction);
  }

  /** Rows of the whole reduced raster. */
  static int height(TileGrid grid, int reduction) {
    return Math.max(1, grid.height() / reduction);
  }

  /** Column of this part at which a column of tiles begins. */
  private int tileLeft(TileGrid grid, int column) {
    return grid.start(column, reduction, width(grid, reduction)) - left;
  }

  /** Row of this part at which a row of tiles begins. */
  int tileTop(TileGrid grid, int row) {
    return grid.start(row, reduction, height(grid, reduction)) - top;
  }

  /** Columns of this part at which the given columns of tiles begin, and the end of the last. */
  int[] tileLefts(TileGrid grid, Tiles tiles) {
    int[] out = new int[tiles.columnEnd() - tiles.column() + 1];
    for (int i = 0; i < out.length; i++) {
      out[i] = tileLeft(grid, tiles.column() + i);
    }
    return out;
  }

  /** Told the pixels of a tile. */
  interface TileVisitor {
    /**
     * @param at index of the tile in the planes of the sums
     * @param left first column of the part
     * @param right column after the last
     * @param top first row of the part
     * @param bottom row after the last
     */
    void tile(int at, int left, int right, int top, int bottom);
  }

  /** Visits tiles in their order. */
  void each(TileGrid grid, Tiles tiles, SumsBand sums, TileVisitor visitor) {
    int[] lefts = tileLefts(grid, tiles);
    for (int r = tiles.row(); r < tiles.rowEnd(); r++) {
      int rowTop = tileTop(grid, r);
      int rowBottom = tileTop(grid, r + 1);
      for (int i = 0; i + 1 < lefts.length; i++) {
        visitor.tile(sums.at(r, tiles.column() + i), lefts[i], lefts[i + 1], rowTop, rowBottom);
      }
    }
  }
}
