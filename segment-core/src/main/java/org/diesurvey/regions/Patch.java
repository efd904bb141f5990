package org.diesurvey.regions;

import java.util.function.IntConsumer;
import java.util.function.IntPredicate;
import java.util.function.IntToDoubleFunction;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.raster.PixelRect;
import org.diesurvey.tiles.TileGrid;
import org.diesurvey.vision.Components;

/**
 * One connected patch of tiles.
 *
 * @param parts all patches of a mask
 * @param part which of them
 * @param grid tiles of the die
 */
record Patch(Components.Labelling parts, Components.Component part, TileGrid grid) {
  /** Area, um2. */
  double areaUm2() {
    return part.cells() * grid.tileUm() * grid.tileUm();
  }

  /** Mean of a value over the tiles. */
  double mean(IntToDoubleFunction value) {
    double[] sum = new double[1];
    each(0, t -> sum[0] += has(t) ? value.applyAsDouble(t) : 0);
    return sum[0] / part.cells();
  }

  /** Gives all tiles a class. */
  void relabel(int[] label, SurfaceClass to) {
    each(
        0,
        t -> {
          if (has(t)) {
            label[t] = to.ordinal();
          }
        });
  }

  /** Share of the tiles that touch the patch from outside which are so; 0 if there are none. */
  double around(IntPredicate so) {
    int[] count = new int[2];
    each(
        1,
        t -> {
          if (!has(t) && touches(t)) {
            count[0]++;
            count[1] += so.test(t) ? 1 : 0;
          }
        });
    return count[0] == 0 ? 0 : count[1] / (double) count[0];
  }

  private boolean has(int tile) {
    return parts.ids()[tile] == part.id();
  }

  private boolean touches(int tile) {
    int x = tile % grid.columns();
    int y = tile / grid.columns();
    return x > 0 && has(tile - 1)
        || x + 1 < grid.columns() && has(tile + 1)
        || y > 0 && has(tile - grid.columns())
        || y + 1 < grid.rows() && has(tile + grid.columns());
  }

  /** Every tile of the bounding rectangle and so many around it, row by row. */
  private void each(int margin, IntConsumer tile) {
    PixelRect b = part.bounds();
    int right = Math.min(grid.columns(), b.x() + b.width() + margin);
    int bottom = Math.min(grid.rows(), b.y() + b.height() + margin);
    for (int y = Math.max(0, b.y() - margin); y < bottom; y++) {
      for (int x = Math.max(0, b.x() - margin); x < right; x++) {
        tile.accept(y * grid.columns() + x);
      }
    }
  }
}
