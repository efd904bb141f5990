package org.diesurvey.pipeline;

import java.util.Arrays;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.tiles.TileGrid;
import org.diesurvey.vision.Components;
import org.diesurvey.vision.Morphology;

/**
 * Places where anybody sees a lattice of many cells in both directions. No scale changes that, so
 * it counts where the scale is unknown, and in magnified pictures, whose cells are larger than the
 * windows of the classes.
 */
final class PlainLattice {
  /**
   * A bank of capacitors or of transistors seldom has more periods (common practice, no source).
   */
  private static final double FEWEST_CELLS = 200;

  /** Periods along the shorter side. */
  private static final double FEWEST_ALONG = 8;

  private final boolean[] inside;

  private PlainLattice(boolean[] inside) {
    this.inside = inside;
  }

  /** Whether a tile lies in a lattice of many cells. */
  boolean holds(int tile) {
    return inside[tile];
  }

  /** Looks for lattices of many cells. */
  static PlainLattice of(LatticeStrength strength, LatticeTuning tuning) {
    TileGrid grid = strength.grid();
    float plain = (float) tuning.plain();
    byte[] strong = new byte[grid.count()];
    for (int t = 0; t < strong.length; t++) {
      strong[t] = (byte) (strength.of(t) >= plain ? 1 : 0);
    }
    Components.Labelling parts =
        Components.label(
            Morphology.open(
                Morphology.close(LabelRaster.over(grid.columns(), grid.rows(), strong), 1), 2));
    boolean[] out = new boolean[strong.length];
    for (Components.Component part : parts.components()) {
      double[] cells =
          java.util.stream.IntStream.range(0, strong.length)
              .filter(t -> parts.ids()[t] == part.id() && strong[t] != 0)
              .mapToDouble(strength::cellUm2)
              .filter(Double::isFinite)
              .toArray();
      if (cells.length == 0) {
        continue;
      }
      Arrays.sort(cells);
      double cell = cells[cells.length / 2];
      double tile = grid.tileUm();
      double shorter = Math.min(part.bounds().width(), part.bounds().height()) * tile;
      if (part.cells() * tile * tile >= FEWEST_CELLS * cell
          && shorter >= FEWEST_ALONG * Math.sqrt(cell)) {
        for (int t = 0; t < out.length; t++) {
          out[t] |= parts.ids()[t] == part.id();
        }
      }
    }
    return new PlainLattice(out);
  }
}
