package org.diesurvey.comparison.tiles;

import java.util.Arrays;

/**
 * Correlation of single tiles with the second raster around one shift, the best of shifts up to one
 * pixel off, worked out where it is asked for only. One instance serves one thread.
 */
public final class ShiftedTiles {
  private static final int SHIFTS = 9;

  private final TileCorrelator tiles;
  private final int dx;
  private final int dy;

  /** Of tiles asked for so far: products at nine shifts, then squares. */
  private final float[][] cells;

  private final float[] best;

  public ShiftedTiles(TileCorrelator tiles, int dx, int dy) {
    this.tiles = tiles;
    this.dx = dx;
    this.dy = dy;
    this.cells = new float[tiles.count()][];
    this.best = new float[tiles.count()];
    Arrays.fill(best, Float.NaN);
  }

  /** The same as {@link TileCorrelator#best} with a reach of one pixel. */
  public float at(int tile) {
    if (Float.isNaN(best[tile])) {
      best[tile] = tiles.best(tile, window(tile), SHIFTS);
    }
    return best[tile];
  }

  private float[] window(int tile) {
    float[] sums = new float[2 * SHIFTS];
    int column = tile % tiles.columns;
    int row = tile / tiles.columns;
    for (int y = Math.max(0, row - 1); y <= Math.min(tiles.rows - 1, row + 1); y++) {
      for (int x = Math.max(0, column - 1); x <= Math.min(tiles.columns - 1, column + 1); x++) {
        float[] cell = cell(y * tiles.columns + x);
        for (int k = 0; k < sums.length; k++) {
          sums[k] += cell[k];
        }
      }
    }
    return sums;
  }

  private float[] cell(int tile) {
    if (cells[tile] == null) {
      float[] cell = new float[2 * SHIFTS];
      for (int s = 0; s < SHIFTS; s++) {
        tiles.cell(tile, dx + s % 3 - 1, dy + s / 3 - 1, cell, s, SHIFTS + s);
      }
      cells[tile] = cell;
    }
    return cells[tile];
  }
}
