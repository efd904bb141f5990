package org.diesurvey.regions;

import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.tiles.TileGrid;
import org.diesurvey.vision.Components;

/**
 * One label per tile inside the pad ring: smoothed evidence first, then what a person would require
 * of a block, a rule at a time.
 */
final class CoreLabelling {
  /** Label of tiles that are not core. */
  static final int OUTSIDE = CoreTiles.OUTSIDE;

  /** Patches of rows smaller than so many least arrays are no logic of their own. */
  private static final int LEAST_ROWS = 3;

  private final int[] label;
  private final boolean[] plate;

  private CoreLabelling(int[] label, boolean[] plate) {
    this.label = label;
    this.plate = plate;
  }

  /**
   * Labels the core.
   *
   * @param inside tiles that are core
   * @param ioAllowed whether I/O cells may stand in the core (a photograph without a die edge)
   */
  static CoreLabelling of(
      TileProbabilities probabilities,
      FeatureTable features,
      boolean[] inside,
      boolean ioAllowed,
      RegionTuning tuning) {
    TileGrid grid = probabilities.grid();
    SmoothedEvidence evidence = SmoothedEvidence.of(probabilities, features, inside, ioAllowed);
    int[] label = new int[grid.count()];
    for (int t = 0; t < label.length; t++) {
      label[t] = inside[t] ? evidence.best(t).ordinal() : OUTSIDE;
    }
    CoreTiles tiles = new CoreTiles(grid, label);
    coverDamage(tiles, inside, features);
    ObliqueStrips.clear(label, grid, tuning.patches());
    WeakPatches.settle(label, probabilities, tuning.patches());
    boolean[] plate =
        plates(tiles, FlatPlates.tiles(label, features.fine(), grid, tuning.macros()));
    MemoryBlocks.settle(tiles, probabilities, evidence, inside, tuning.memories());
    MacroBlocks.settle(tiles, tuning.macros());
    coverSpecksOfRows(tiles, tuning.memories());
    return new CoreLabelling(label, plate);
  }

  /** Damaged tiles take the label of what surrounds them. */
  private static void coverDamage(CoreTiles tiles, boolean[] inside, FeatureTable features) {
    boolean[] hidden = new boolean[tiles.count()];
    for (int t = 0; t < hidden.length; t++) {
      hidden[t] = inside[t] && features.damaged(t);
    }
    tiles.spreadInto(hidden);
  }

  /** Plates in bare ground are macros. */
  private static boolean[] plates(CoreTiles tiles, boolean[] plate) {
    for (int t = 0; t < plate.length; t++) {
      if (plate[t]) {
        tiles.set(t, SurfaceClass.MACRO);
      }
    }
    return plate;
  }

  /** Specks of rows inside other blocks take the label of what surrounds them. */
  static void coverSpecksOfRows(CoreTiles tiles, MemoryTuning tuning) {
    int least = tiles.tiles(LEAST_ROWS * tuning.leastArrayUm2());
    Components.Labelling parts = Components.label(tiles.mask(SurfaceClass.CELL_ROWS));
    boolean[] speck = new boolean[tiles.count()];
    for (int t = 0; t < speck.length; t++) {
      int id = parts.ids()[t];
      speck[t] = id > 0 && parts.components().get(id - 1).cells() < least;
    }
    tiles.spreadInto(speck);
  }

  /** Whether a tile is a macro for the plate that it lies in. */
  boolean plate(int tile) {
    return plate[tile];
  }

  /** Label of a tile: ordinal of a {@link SurfaceClass}, or OUTSIDE. */
  int label(int tile) {
    return label[tile];
  }
}
