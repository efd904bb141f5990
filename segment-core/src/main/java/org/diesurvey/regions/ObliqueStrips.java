package org.diesurvey.regions;

import java.util.function.IntPredicate;
import java.util.function.Predicate;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.raster.PixelRect;
import org.diesurvey.tiles.TileGrid;
import org.diesurvey.vision.Components;
import org.diesurvey.vision.Morphology;
import org.diesurvey.vision.StripShape;

/**
 * Scratches on bare ground, which the windows of the features widen to a strip. Layout runs along
 * the axes of the die; what is long, narrow and oblique on bare ground does not belong to it.
 */
final class ObliqueStrips {
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
  static void clear(int[] label, TileGrid grid, PatchTuning tuning) {
    byte[] shown = new byte[label.length];
    for (int t = 0; t < label.length; t++) {
      boolean core = label[t] < SurfaceClass.COUNT;
      shown[t] = (byte) (core && label[t] != SurfaceClass.BARE.ordinal() ? 1 : 0);
    }
    byte[] broad =
        Morphology.open(LabelRaster.over(grid.columns(), grid.rows(), shown), tuning.stripTiles())
            .array();
    byte[] narrow = new byte[label.length];
    for (int t = 0; t < narrow.length; t++) {
      narrow[t] = broad[t] != 0 ? 0 : shown[t];
    }
    clear(
        label,
        narrow,
        grid,
        patch ->
            isStrip(StripShape.of(patch.parts(), patch.part(), grid.columns()), WHOLE_OVER_WIDTH));
    // What hangs together with a block is told by what lies around each tile.
    byte[] oblique = new byte[label.length];
    for (int t = 0; t < oblique.length; t++) {
      boolean open = narrow[t] != 0 && label[t] != SurfaceClass.BARE.ordinal();
      oblique[t] = (byte) (open && isOblique(shown, grid, t) ? 1 : 0);
    }
    clear(label, oblique, grid, patch -> true);
  }

  /** Makes the patches of a mask bare that are large enough, lie on bare ground and fit. */
  private static void clear(int[] label, byte[] mask, TileGrid grid, Predicate<Patch> fits) {
    Components.Labelling parts =
        Components.label(LabelRaster.over(grid.columns(), grid.rows(), mask));
    IntPredicate bare = t -> label[t] == SurfaceClass.BARE.ordinal();
    for (Components.Component c : parts.components()) {
      Patch patch = new Patch(parts, c, grid);
      if (c.cells() >= LEAST_TILES && fits.test(patch) && patch.around(bare) >= ON_BARE) {
        patch.relabel(label, SurfaceClass.BARE);
      }
    }
  }

  private static boolean isStrip(StripShape s, double lengthOverWidth) {
    return s.length() >= lengthOverWidth * s.width()
        && s.offAxisDeg() >= OFF_AXIS_DEG
        && s.cells() >= FILLED * s.length() * s.width();
  }

  /** Whether what is shown around a tile is one oblique strip. */
  private static boolean isOblique(byte[] shown, TileGrid grid, int tile) {
    int x0 = Math.max(0, tile % grid.columns() - REACH);
    int y0 = Math.max(0, tile / grid.columns() - REACH);
    int x1 = Math.min(grid.columns(), tile % grid.columns() + REACH + 1);
    int y1 = Math.min(grid.rows(), tile / grid.columns() + REACH + 1);
    StripShape around =
        StripShape.of(
            new PixelRect(x0, y0, x1 - x0, y1 - y0),
            (row, column) -> shown[row * grid.columns() + column] != 0);
    return isStrip(around, LENGTH_OVER_WIDTH);
  }
}
