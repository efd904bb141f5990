package org.diesurvey.tiles;

import org.diesurvey.raster.GrayRaster;
import org.diesurvey.raster.PixelRect;

/**
 * Grey and activity on cells of a quarter tile: enough to place an edge far more finely than a
 * tile, small enough to keep.
 */
public final class FineMap {
  /** Cells per side of a tile. */
  public static final int PER_TILE = 4;

  private final TileGrid grid;
  private final int columns;
  private final int rows;
  private final float[] grey;
  private final float[] activity;

  public FineMap(TileGrid grid) {
    this.grid = grid;
    this.columns = grid.columns() * PER_TILE;
    this.rows = grid.rows() * PER_TILE;
    this.grey = new float[columns * rows];
    this.activity = new float[columns * rows];
  }

  /** Sets one cell. */
  public void set(int row, int column, float itsGrey, float itsActivity) {
    grey[row * columns + column] = itsGrey;
    activity[row * columns + column] = itsActivity;
  }

  /**
   * Fills the cells of some tiles from the pixels at full size.
   *
   * @param part of the upright raster
   * @param left column of the raster at which the part starts
   * @param top row at which it starts
   * @param tiles columns and rows of tiles whose pixels lie in the part
   */
  public void fill(GrayRaster part, int left, int top, PixelRect tiles) {
    int w = part.width();
    int h = part.height();
    float[] a = part.array();
    double cell = grid.tilePx() / PER_TILE;
    for (int r = tiles.y() * PER_TILE; r < (tiles.y() + tiles.height()) * PER_TILE; r++) {
      int y0 = clamp((int) Math.round(r * cell) - top, 1, h - 2);
      int y1 = clamp((int) Math.round((r + 1) * cell) - top, y0 + 1, h - 1);
      for (int c = tiles.x() * PER_TILE; c < (tiles.x() + tiles.width()) * PER_TILE; c++) {
        int x0 = clamp((int) Math.round(c * cell) - left, 1, w - 2);
        int x1 = clamp((int) Math.round((c + 1) * cell) - left, x0 + 1, w - 1);
        float sum = 0;
        float change = 0;
        for (int y = y0; y < y1; y++) {
          for (int x = x0; x < x1; x++) {
            int i = y * w + x;
            sum += a[i];
            change += Math.abs(a[i + 1] - a[i - 1]) + Math.abs(a[i + w] - a[i - w]);
          }
        }
        float n = (y1 - y0) * (x1 - x0);
        grey[r * columns + c] = sum / n;
        activity[r * columns + c] = change / n;
      }
    }
  }

  private static int clamp(int v, int low, int high) {
    return Math.max(low, Math.min(high, v));
  }

  /** Cells across. */
  public int columns() {
    return columns;
  }

  /** Cells down. */
  public int rows() {
    return rows;
  }

  /** Side of a cell, um. */
  public double cellUm() {
    return grid.tileUm() / PER_TILE;
  }

  /** Mean grey of a cell. */
  public float grey(int row, int column) {
    return grey[row * columns + column];
  }

  /** Mean absolute change of grey between neighbouring pixels in a cell. */
  public float activity(int row, int column) {
    return activity[row * columns + column];
  }
}
