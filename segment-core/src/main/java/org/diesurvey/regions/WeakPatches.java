package org.diesurvey.regions;

import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.tiles.TileGrid;
import org.diesurvey.vision.Components;
import org.diesurvey.vision.Morphology;

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

  /** Share of the surroundings that must be bare. */
  private static final double ON_BARE = 0.5;

  private final int[] label;
  private final TileProbabilities probabilities;
  private final TileGrid grid;
  private final PatchTuning tuning;

  private WeakPatches(int[] label, TileProbabilities probabilities, PatchTuning tuning) {
    this.label = label;
    this.probabilities = probabilities;
    this.grid = probabilities.grid();
    this.tuning = tuning;
  }

  /**
   * Relabels weak patches.
   *
   * @param label one a tile: ordinal of a {@link SurfaceClass}, or another number for tiles that
   *     are no core; changed
   */
  static void settle(int[] label, TileProbabilities probabilities, PatchTuning tuning) {
    WeakPatches w = new WeakPatches(label, probabilities, tuning);
    w.memories();
    w.onBareGround(SurfaceClass.MACRO, SMALL_MACRO_UM2, 0);
    w.onBareGround(SurfaceClass.CELL_ROWS, SMALL_ROWS_UM2, tuning.thinUm());
  }

  /** Weak small memories become whatever is likeliest for them as a whole. */
  private void memories() {
    SurfaceClass[] memory = {SurfaceClass.BIT_CELLS, SurfaceClass.PERIPHERY};
    Components.Labelling parts = Components.label(mask(memory));
    for (Components.Component c : parts.components()) {
      Patch patch = new Patch(parts, c, grid);
      if (patch.areaUm2() >= SMALL_MEMORY_UM2 || mean(patch, memory) >= tuning.sure()) {
        continue;
      }
      SurfaceClass best = SurfaceClass.BARE;
      for (SurfaceClass other : new SurfaceClass[] {SurfaceClass.MACRO, SurfaceClass.CELL_ROWS}) {
        if (mean(patch, other) > mean(patch, best)) {
          best = other;
        }
      }
      patch.relabel(label, best);
    }
  }

  private void onBareGround(SurfaceClass of, double smallUm2, double thinUm) {
    LabelRaster all = mask(of);
    Components.Labelling parts = Components.label(all);
    int half = (int) Math.round(thinUm / 2 / grid.tileUm());
    LabelRaster broad = Morphology.open(all, half);
    boolean[] hasBroad = new boolean[parts.components().size() + 1];
    for (int t = 0; t < label.length; t++) {
      hasBroad[parts.ids()[t]] |= broad.array()[t] != 0;
    }
    for (Components.Component c : parts.components()) {
      boolean thin = !hasBroad[c.id()];
      Patch patch = new Patch(parts, c, grid);
      boolean weak = patch.areaUm2() < smallUm2 && mean(patch, of) < tuning.sure();
      if ((thin || weak) && patch.around(this::isBare) >= ON_BARE) {
        patch.relabel(label, SurfaceClass.BARE);
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

  private double mean(Patch patch, SurfaceClass... classes) {
    return patch.mean(
        t -> {
          double sum = 0;
          for (SurfaceClass of : classes) {
            sum += probabilities.get(t, of);
          }
          return sum;
        });
  }

  private boolean isBare(int tile) {
    return label[tile] == SurfaceClass.BARE.ordinal();
  }
}
