package org.diesurvey.regions;

import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.vision.Components;
import org.diesurvey.vision.Morphology;

/**
 * Blocks that are neither memory nor rows: macros if devices stand in them, bare if not. Broad ones
 * first, so that the channels which join them to others fall away; then small ones that are
 * compact. What is left takes the label of what surrounds it.
 */
final class MacroBlocks {
  /** Least area of a bare surface that is reported, um2. */
  private static final double LEAST_BARE_UM2 = 6000;

  /** Bare gaps between the devices of one macro are narrower than twice this, um (own choice). */
  private static final double NEAR_UM = 16;

  /** Bare ground wider than this is no part of a macro, um (own choice). */
  private static final double WIDE_UM = 48;

  /** A compact block is at most so many times as long as it is wide (own choice). */
  private static final int LONGEST = 3;

  private MacroBlocks() {}

  /** Applies the rule. */
  static void settle(CoreTiles tiles, MacroTuning tuning) {
    wideBare(tiles);
    settle(tiles, inTiles(tuning.channelUm() / 2, tiles), false, tuning);
    settle(tiles, 1, true, tuning);
    boolean[] left = new boolean[tiles.count()];
    for (int t = 0; t < left.length; t++) {
      left[t] = tiles.open(t, SurfaceClass.MACRO, SurfaceClass.BARE);
    }
    tiles.release();
    tiles.spreadInto(left);
  }

  private static int inTiles(double um, CoreTiles tiles) {
    return Math.max(1, (int) Math.round(um / tiles.grid().tileUm()));
  }

  /**
   * Bare ground wider than any channel and away from devices belongs to no macro: blocks that stand
   * in it are told apart.
   */
  private static void wideBare(CoreTiles tiles) {
    LabelRaster devices = Morphology.close(tiles.mask(SurfaceClass.MACRO), inTiles(NEAR_UM, tiles));
    byte[] ground = tiles.mask(SurfaceClass.BARE).array().clone();
    for (int t = 0; t < ground.length; t++) {
      ground[t] = devices.array()[t] != 0 ? 0 : ground[t];
    }
    LabelRaster open =
        Morphology.open(
            LabelRaster.over(devices.width(), devices.height(), ground),
            inTiles(WIDE_UM / 2, tiles));
    LabelRaster large = TileMasks.largeParts(open, tiles.tiles(LEAST_BARE_UM2));
    for (int t = 0; t < tiles.count(); t++) {
      if (large.array()[t] != 0) {
        tiles.settle(t, SurfaceClass.BARE);
      }
    }
  }

  /**
   * @param reach half the width of what joins blocks, tiles
   */
  private static void settle(CoreTiles tiles, int reach, boolean compactOnly, MacroTuning tuning) {
    Components.Labelling parts =
        Components.label(Morphology.open(tiles.mask(SurfaceClass.MACRO, SurfaceClass.BARE), reach));
    int[] devices = new int[parts.components().size() + 1];
    for (int t = 0; t < tiles.count(); t++) {
      devices[parts.ids()[t]] += tiles.open(t, SurfaceClass.MACRO) ? 1 : 0;
    }
    for (Components.Component part : parts.components()) {
      if (compactOnly && !compact(part)) {
        continue;
      }
      boolean isMacro =
          devices[part.id()] * 4 >= part.cells() && part.cells() >= tiles.tiles(tuning.leastUm2());
      if (!isMacro && part.cells() < tiles.tiles(LEAST_BARE_UM2)) {
        continue;
      }
      LabelRaster shape =
          TileMasks.regular(parts, part, tiles.grid().columns(), tiles.grid().rows());
      for (int t = 0; t < tiles.count(); t++) {
        if (shape.array()[t] != 0
            && tiles.open(t, SurfaceClass.MACRO, SurfaceClass.BARE, SurfaceClass.CELL_ROWS)) {
          tiles.settle(t, isMacro ? SurfaceClass.MACRO : SurfaceClass.BARE);
        }
      }
    }
  }

  private static boolean compact(Components.Component part) {
    int shortSide = Math.min(part.bounds().width(), part.bounds().height());
    int longSide = Math.max(part.bounds().width(), part.bounds().height());
    return longSide <= LONGEST * shortSide && part.cells() * 2 >= shortSide * longSide;
  }
}
