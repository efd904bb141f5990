package org.diesurvey.classification;

import org.diesurvey.tiles.TileGrid;

/**
 * Probability of every surface class for every tile, and how unlike the training data each tile is.
 */
public final class TileProbabilities {
  private final TileGrid grid;
  private final float[] values;
  private final float[] strangeness;

  /**
   * @param values tile-major, {@link SurfaceClass#COUNT} probabilities a tile, summing to 1
   * @param strangeness one a tile: 0 typical of the training data, 1 at its border, above 1 outside
   */
  public TileProbabilities(TileGrid grid, float[] values, float[] strangeness) {
    if (values.length != grid.count() * SurfaceClass.COUNT || strangeness.length != grid.count()) {
      throw new IllegalArgumentException(
          values.length + " probabilities for " + grid.count() + " tiles");
    }
    this.grid = grid;
    this.values = values;
    this.strangeness = strangeness;
  }

  /** The tiles. */
  public TileGrid grid() {
    return grid;
  }

  /** Probability of a class for a tile, 0 to 1. */
  public float get(int tile, SurfaceClass c) {
    return values[tile * SurfaceClass.COUNT + c.ordinal()];
  }

  /** How unlike the training data a tile is; above 1 is outside. */
  public float strangeness(int tile) {
    return strangeness[tile];
  }

  /** The most probable class of a tile. */
  public SurfaceClass best(int tile) {
    int base = tile * SurfaceClass.COUNT;
    int at = 0;
    for (int k = 1; k < SurfaceClass.COUNT; k++) {
      if (values[base + k] > values[base + at]) {
        at = k;
      }
    }
    return SurfaceClass.values()[at];
  }
}
