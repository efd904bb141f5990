package org.diesurvey.pipeline;

import org.diesurvey.features.FeatureTable;
import org.diesurvey.tiles.TileGrid;

/**
 * How surely each tile of a view lies in a lattice, and in one of which cell: kept longer than the
 * features.
 */
final class LatticeStrength {
  /** Strength of tiles that are hidden. */
  private static final float HIDDEN = -1;

  private final TileGrid grid;
  private final float[] strength;
  private final double[] cellUm2;

  private LatticeStrength(TileGrid grid) {
    this.grid = grid;
    this.strength = new float[grid.count()];
    this.cellUm2 = new double[grid.count()];
  }

  static LatticeStrength of(FeatureTable features) {
    LatticeStrength out = new LatticeStrength(features.grid());
    FeatureTable.Vectors vectors = features.vectors();
    for (int t = 0; t < out.strength.length; t++) {
      out.strength[t] = features.damaged(t) ? HIDDEN : vectors.lattice(t);
      out.cellUm2[t] = out.strength[t] > 0 ? vectors.latticeCellUm2(t) : Double.NaN;
    }
    return out;
  }

  TileGrid grid() {
    return grid;
  }

  /** See {@link FeatureTable.Vectors#lattice}. */
  float of(int tile) {
    return strength[tile];
  }

  /** Area of a cell, um2; NaN for none. */
  double cellUm2(int tile) {
    return cellUm2[tile];
  }
}
