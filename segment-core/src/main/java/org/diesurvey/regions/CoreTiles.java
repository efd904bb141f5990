package org.diesurvey.regions;

import java.util.Arrays;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.tiles.TileGrid;

/**
 * One label for each tile, and which tiles a rule has settled: those keep their label while the
 * rule goes on with the rest.
 */
final class CoreTiles {
  /** Label of tiles that are not core. */
  static final int OUTSIDE = 200;

  private final TileGrid grid;
  private final int[] label;
  private final boolean[] settled;

  /**
   * @param label ordinal of a {@link SurfaceClass} for each tile, or OUTSIDE; the array itself is
   *     changed
   */
  CoreTiles(TileGrid grid, int[] label) {
    this.grid = grid;
    this.label = label;
    this.settled = new boolean[label.length];
  }

  TileGrid grid() {
    return grid;
  }

  int count() {
    return label.length;
  }

  /** Whether a tile is not settled and has one of these labels. */
  boolean open(int tile, SurfaceClass... classes) {
    if (!settled[tile]) {
      for (SurfaceClass c : classes) {
        if (label[tile] == c.ordinal()) {
          return true;
        }
      }
    }
    return false;
  }

  /** The tiles that are not settled and have one of these labels. */
  LabelRaster mask(SurfaceClass... classes) {
    byte[] m = new byte[label.length];
    for (int t = 0; t < m.length; t++) {
      m[t] = (byte) (open(t, classes) ? 1 : 0);
    }
    return LabelRaster.over(grid.columns(), grid.rows(), m);
  }

  /** Gives a tile another label. */
  void set(int tile, SurfaceClass to) {
    label[tile] = to.ordinal();
  }

  /** Gives a tile the label that it keeps until {@link #release}. */
  void settle(int tile, SurfaceClass as) {
    label[tile] = as.ordinal();
    settled[tile] = true;
  }

  /** Ends a rule: nothing is settled any more. */
  void release() {
    Arrays.fill(settled, false);
  }

  /** Tiles take the label of what surrounds them. */
  void spreadInto(boolean[] tiles) {
    LabelSpread.into(label, tiles, grid, OUTSIDE);
  }

  /** Tiles of an area, at least 2. */
  int tiles(double areaUm2) {
    return Math.max(2, (int) Math.round(areaUm2 / (grid.tileUm() * grid.tileUm())));
  }
}
