package org.diesurvey.comparison.tiles;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.diesurvey.raster.GrayRaster;

/**
 * A raster laid out for sums over tiles: of each row first the pixels that come first in their
 * tiles, then the second ones, and so on, so that one step of all tiles of a row is one run of
 * memory. Sums of a tile are taken in the order of its pixels, as if it were alone.
 */
final class TilePhases {
  private final int side;
  private final int height;
  private final int columns;
  private final float[] values;

  /**
   * @param side of a tile, px
   */
  TilePhases(GrayRaster in, int side) {
    this.side = side;
    this.height = in.height();
    // The last tile may be cut; what it lacks is 0.
    this.columns = (in.width() + side - 1) / side;
    this.values = new float[height * side * columns];
    float[] from = in.array();
    IntStream.range(0, height)
        .parallel()
        .forEach(
            y -> {
              int at = y * in.width();
              for (int c = 0; c < columns; c++) {
                int most = Math.min(side, in.width() - c * side);
                int to = y * side * columns + c;
                for (int i = 0; i < most; i++) {
                  values[to + i * columns] = from[at + c * side + i];
                }
              }
            });
  }

  int height() {
    return height;
  }

  /**
   * Adds up products with another raster over the runs that a row has in each tile.
   *
   * @param y row of this raster
   * @param yOther row of the other; nothing is added if it is not there
   * @param dx shift of the other, px
   * @param sums one for each tile of the row, set to the result
   */
  void products(int y, TilePhases other, int yOther, int dx, float[] sums) {
    Arrays.fill(sums, 0);
    if (yOther < 0 || yOther >= other.height) {
      return;
    }
    for (int i = 0; i < side; i++) {
      int off = Math.floorDiv(i + dx, side);
      int phase = Math.floorMod(i + dx, side);
      int from = Math.max(0, -off);
      int to = Math.min(sums.length, other.columns - off);
      add(
          values,
          (y * side + i) * columns,
          other.values,
          (yOther * side + phase) * other.columns + off,
          from,
          to,
          sums);
    }
  }

  /** Squares of the other's row, shifted, over the runs that a row has in each tile. */
  void squares(int y, int dx, float[] sums) {
    Arrays.fill(sums, 0);
    if (y < 0 || y >= height) {
      return;
    }
    for (int i = 0; i < side; i++) {
      int off = Math.floorDiv(i + dx, side);
      int phase = Math.floorMod(i + dx, side);
      int at = (y * side + phase) * columns + off;
      add(values, at, values, at, Math.max(0, -off), Math.min(sums.length, columns - off), sums);
    }
  }

  /** A loop of its own, which the virtual machine turns into operations on many numbers at once. */
  private static void add(float[] p, int atP, float[] q, int atQ, int from, int to, float[] sums) {
    for (int c = from; c < to; c++) {
      sums[c] += q[atQ + c] * p[atP + c];
    }
  }
}
