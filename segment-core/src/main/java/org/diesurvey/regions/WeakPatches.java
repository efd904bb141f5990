package org.diesurvey.regions;

import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.tiles.TileGrid;
import org.diesurvey.vision.Components;

/**
 * Small or thin patches whose evidence is weak, as dust, scratches and stains on bare ground leave
 * them: they take the class of what surrounds them. Patches that are sure of themselves stay,
 * however small.
 */
final class WeakPatches {
  /** Macros below this must be sure of themselves, um2 (own choice). */
  private static final double SMALL_MACRO_UM2 = 2000;

  /** The same for rows, um2. */
  private static final double SMALL_ROWS_UM2 = 6000;

  /** The same for memories: a square of 90 um (own choice). */
  private static final double SMALL_MEMORY_UM2 = 8000;

  /** Mean probability that makes a patch sure of itself (own choice). */
  private static final double SURE = 0.75;

  /** Rows narrower than this on bare ground are taken for a scratch, um (own choice). */
  private static final double THIN_UM = 40;

  /** Share of the surroundings that must be bare. */
  private static final double ON_BARE = 0.5;

  private final int[] label;
  private final TileProbabilities probabilities;
  private final TileGrid grid;

  private WeakPatches(int[] label, TileProbabilities probabilities) {
    this.label = label;
    this.probabilities = probabilities;
    this.grid = probabilities.grid();
  }

  /**
   * Relabels weak patches.
   *
   * @param label one a tile: ordinal of a {@link SurfaceClass}, or another number for tiles that
   *     are no core; changed
   */
  static void settle(int[] label, TileProbabilities probabilities) {
    WeakPatches w = new WeakPatches(label, probabilities);
    w.memories();
    w.onBareGround(SurfaceClass.MACRO, SMALL_MACRO_UM2, 0);
    w.onBareGround(SurfaceClass.CELL_ROWS, SMALL_ROWS_UM2, THIN_UM);
  }

  /** Weak small memories become whatever is likeliest for them as a whole. */
  private void memories() {
    SurfaceClass[] memory = {SurfaceClass.BIT_CELLS, SurfaceClass.PERIPHERY};
    Components.Labelling parts = Components.label(mask(memory));
    for (Components.Component c : parts.components()) {
      if (area(c) >= SMALL_MEMORY_UM2 || mean(parts, c, memory) >= SURE) {
        continue;
      }
      SurfaceClass best = SurfaceClass.BARE;
      for (SurfaceClass other : new SurfaceClass[] {SurfaceClass.MACRO, SurfaceClass.CELL_ROWS}) {
        if (mean(parts, c, other) > mean(parts, c, best)) {
          best = other;
        }
      }
      relabel(parts, c, best);
    }
  }

  private void onBareGround(SurfaceClass of, double smallUm2, double thinUm) {
    LabelRaster all = mask(of);
    Components.Labelling parts = Components.label(all);
    int half = (int) Math.round(thinUm / 2 / grid.tileUm());
    LabelRaster broad = half > 0 ? Components.openOrClose(all, -half) : all;
    boolean[] hasBroad = new boolean[parts.components().size() + 1];
    for (int t = 0; t < label.length; t++) {
      hasBroad[parts.ids()[t]] |= broad.array()[t] != 0;
    }
    for (Components.Component c : parts.components()) {
      boolean thin = !hasBroad[c.id()];
      boolean weak = area(c) < smallUm2 && mean(parts, c, of) < SURE;
      if ((thin || weak) && bareAround(parts, c) >= ON_BARE) {
        relabel(parts, c, SurfaceClass.BARE);
      }
    }
  }

  private LabelRaster mask(SurfaceClass... classes) {
    byte[] m = new byte[label.length];
    for (int t = 0; t < m.length; t++) {
      for (SurfaceClass c : classes) {
        m[t] |= (byte) (label[t] == c.ordinal() ? 1 : 0);
      }
    }
    return LabelRaster.over(grid.columns(), grid.rows(), m);
  }

  private double area(Components.Component c) {
    return c.cells() * grid.tileUm() * grid.tileUm();
  }

  private double mean(Components.Labelling parts, Components.Component c, SurfaceClass... classes) {
    double sum = 0;
    for (int y = c.bounds().y(); y < c.bounds().y() + c.bounds().height(); y++) {
      for (int x = c.bounds().x(); x < c.bounds().x() + c.bounds().width(); x++) {
        int t = y * grid.columns() + x;
        if (parts.ids()[t] == c.id()) {
          for (SurfaceClass of : classes) {
            sum += probabilities.get(t, of);
          }
        }
      }
    }
    return sum / c.cells();
  }

  /** Share of the tiles that touch a patch from outside and are bare. */
  private double bareAround(Components.Labelling parts, Components.Component c) {
    int bare = 0;
    int all = 0;
    int right = Math.min(grid.columns(), c.bounds().x() + c.bounds().width() + 1);
    int bottom = Math.min(grid.rows(), c.bounds().y() + c.bounds().height() + 1);
    for (int y = Math.max(0, c.bounds().y() - 1); y < bottom; y++) {
      for (int x = Math.max(0, c.bounds().x() - 1); x < right; x++) {
        int t = y * grid.columns() + x;
        if (parts.ids()[t] != c.id() && touches(parts, c.id(), x, y)) {
          all++;
          bare += label[t] == SurfaceClass.BARE.ordinal() ? 1 : 0;
        }
      }
    }
    return all == 0 ? 0 : bare / (double) all;
  }

  private boolean touches(Components.Labelling parts, int id, int x, int y) {
    int t = y * grid.columns() + x;
    return x > 0 && parts.ids()[t - 1] == id
        || x + 1 < grid.columns() && parts.ids()[t + 1] == id
        || y > 0 && parts.ids()[t - grid.columns()] == id
        || y + 1 < grid.rows() && parts.ids()[t + grid.columns()] == id;
  }

  private void relabel(Components.Labelling parts, Components.Component c, SurfaceClass to) {
    for (int y = c.bounds().y(); y < c.bounds().y() + c.bounds().height(); y++) {
      for (int x = c.bounds().x(); x < c.bounds().x() + c.bounds().width(); x++) {
        int t = y * grid.columns() + x;
        if (parts.ids()[t] == c.id()) {
          label[t] = to.ordinal();
        }
      }
    }
  }
}
