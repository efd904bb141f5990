package org.diesurvey.regions;

import java.util.function.IntPredicate;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.tiles.TileGrid;
import org.diesurvey.vision.Components;
import org.diesurvey.vision.StripShape;

/**
 * Scratches on bare ground, which the windows of the features widen to a strip. Layout runs along
 * the axes of the die; what is long, narrow and oblique on bare ground does not belong to it.
 */
final class ObliqueStrips {
  /**
   * A strip is no wider than about the largest window of the features: twice this and one, tiles.
   */
  private static final int HALF_WIDTH = 7;

  /** The direction is taken from so many tiles to each side (own choice). */
  private static final int REACH = 11;

  /** Least length within that reach over the width (own choice). */
  private static final double LENGTH_OVER_WIDTH = 1.7;

  /** The same of a strip by itself (own choice). */
  private static final double WHOLE_OVER_WIDTH = 3;

  /** Least angle to the nearer axis, degrees: dies are levelled to a tenth of it (own choice). */
  private static final double OFF_AXIS_DEG = 7;

  /**
   * Share of its own rectangle that a strip fills: a ragged patch fills less (chosen on drawn
   * dies).
   */
  private static final double FILLED = 0.75;

  /** Least number of tiles (chosen on drawn dies). */
  private static final int LEAST_TILES = 40;

  /** Share of the tiles around a strip that are bare (chosen on drawn dies). */
  private static final double ON_BARE = 0.85;

  private ObliqueStrips() {}

  /**
   * Makes them bare.
   *
   * @param label one a tile: ordinal of a {@link SurfaceClass}, or another number for tiles that
   *     are no core; changed
   */
  static void clear(int[] label, TileGrid grid) {
    byte[] shown = new byte[label.length];
    for (int t = 0; t < label.length; t++) {
      boolean core = label[t] < SurfaceClass.COUNT;
      shown[t] = (byte) (core && label[t] != SurfaceClass.BARE.ordinal() ? 1 : 0);
    }
    int columns = grid.columns();
    byte[] narrow = shown.clone();
    byte[] broad =
        Components.openOrClose(LabelRaster.over(columns, grid.rows(), shown), -HALF_WIDTH).array();
    for (int t = 0; t < narrow.length; t++) {
      narrow[t] = broad[t] != 0 ? 0 : narrow[t];
    }
    clear(label, narrow, grid, true);
    // What hangs together with a block is told by what lies around each tile.
    byte[] oblique = new byte[label.length];
    for (int t = 0; t < oblique.length; t++) {
      boolean open = narrow[t] != 0 && label[t] != SurfaceClass.BARE.ordinal();
      oblique[t] = (byte) (open && isOblique(shown, grid, t) ? 1 : 0);
    }
    clear(label, oblique, grid, false);
  }

  private static void clear(int[] label, byte[] mask, TileGrid grid, boolean wholeStripsOnly) {
    Components.Labelling parts =
        Components.label(LabelRaster.over(grid.columns(), grid.rows(), mask));
    IntPredicate bare = t -> label[t] == SurfaceClass.BARE.ordinal();
    for (Components.Component c : parts.components()) {
      boolean fits =
          c.cells() >= LEAST_TILES
              && (!wholeStripsOnly
                  || isStrip(StripShape.of(parts, c, grid.columns()), c.cells(), WHOLE_OVER_WIDTH));
      Patch patch = new Patch(parts, c, grid);
      if (fits && patch.around(bare) >= ON_BARE) {
        patch.relabel(label, SurfaceClass.BARE);
      }
    }
  }

  private static boolean isStrip(StripShape s, double tiles, double lengthOverWidth) {
    return s.length() >= lengthOverWidth * s.width()
        && s.offAxisDeg() >= OFF_AXIS_DEG
        && tiles >= FILLED * s.length() * s.width();
  }

  /** Whether what is shown around a tile is one oblique strip. */
  private static boolean isOblique(byte[] shown, TileGrid grid, int tile) {
    int column = tile % grid.columns();
    int row = tile / grid.columns();
    double n = 0;
    double sx = 0;
    double sy = 0;
    double xx = 0;
    double yy = 0;
    double xy = 0;
    for (int y = Math.max(-REACH, -row); y <= Math.min(REACH, grid.rows() - 1 - row); y++) {
      for (int x = Math.max(-REACH, -column);
          x <= Math.min(REACH, grid.columns() - 1 - column);
          x++) {
        if (shown[tile + y * grid.columns() + x] != 0) {
          n++;
          sx += x;
          sy += y;
          xx += x * x;
          yy += y * y;
          xy += x * y;
        }
      }
    }
    return isStrip(StripShape.of(n, sx, sy, xx, yy, xy), n, LENGTH_OVER_WIDTH);
  }
}
