package org.diesurvey.regions;

import java.util.List;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.vision.Components;
import org.diesurvey.vision.Morphology;

/**
 * Blocks that hold bit cells, or are surely memory without: arrays, their periphery, and small
 * holes in them. Bit cells and periphery elsewhere are something else.
 */
final class MemoryBlocks {
  /** Least area of such a block, um2. */
  private static final double LEAST_MEMORY_UM2 = 2500;

  /** Bit cells are at least this share of a block of which less is sure. */
  private static final double LEAST_CELLS = 1.0 / 30;

  /** Holes of a bit-cell array up to this share of it belong to it. */
  private static final double ARRAY_HOLES = 0.6;

  /** Share of a patch of rows inside a memory from which it belongs to the memory. */
  private static final double ENCLOSED = 0.7;

  private MemoryBlocks() {}

  /**
   * Applies the rule.
   *
   * @param evidence for what is no memory
   * @param inside tiles that are core
   */
  static void settle(
      CoreTiles tiles,
      TileProbabilities probabilities,
      SmoothedEvidence evidence,
      boolean[] inside,
      MemoryTuning tuning) {
    LabelRaster cells = tiles.mask(SurfaceClass.BIT_CELLS);
    LabelRaster seeds =
        TileMasks.largeParts(Morphology.open(cells, 1), tiles.tiles(tuning.leastArrayUm2()));
    LabelRaster both = tiles.mask(SurfaceClass.BIT_CELLS, SurfaceClass.PERIPHERY);
    LabelRaster whole = TileMasks.fillHoles(Morphology.close(both, 1), tuning.holes());
    LabelRaster block = withoutStreets(Morphology.open(whole, 1), tiles);
    LabelRaster arrays = TileMasks.fillHoles(Morphology.close(cells, 1), ARRAY_HOLES);
    Components.Labelling parts = Components.label(block);
    for (Components.Component part : memories(parts, seeds, tiles, probabilities, tuning)) {
      LabelRaster shape =
          TileMasks.regular(parts, part, tiles.grid().columns(), tiles.grid().rows());
      for (int t = 0; t < tiles.count(); t++) {
        if (shape.array()[t] != 0 && inside[t]) {
          // Rows do not stand inside a memory: there the lattice was too faint to tell.
          boolean array = arrays.array()[t] != 0 || tiles.open(t, SurfaceClass.CELL_ROWS);
          tiles.settle(t, array ? SurfaceClass.BIT_CELLS : SurfaceClass.PERIPHERY);
        }
      }
    }
    for (int t = 0; t < tiles.count(); t++) {
      if (tiles.open(t, SurfaceClass.BIT_CELLS, SurfaceClass.PERIPHERY)) {
        tiles.set(t, evidence.bestButMemory(t));
      }
    }
    tiles.release();
  }

  private static List<Components.Component> memories(
      Components.Labelling parts,
      LabelRaster seeds,
      CoreTiles tiles,
      TileProbabilities probabilities,
      MemoryTuning tuning) {
    int[] seed = new int[parts.components().size() + 1];
    double[] evidence = new double[seed.length];
    for (int t = 0; t < tiles.count(); t++) {
      int id = parts.ids()[t];
      seed[id] += seeds.array()[t] != 0 ? 1 : 0;
      evidence[id] +=
          probabilities.get(t, SurfaceClass.BIT_CELLS)
              + probabilities.get(t, SurfaceClass.PERIPHERY);
    }
    return parts.components().stream()
        .filter(
            part -> {
              int n = seed[part.id()];
              boolean sure =
                  evidence[part.id()] >= tuning.surelyMemory() * part.cells()
                      && part.cells() >= tiles.tiles(LEAST_MEMORY_UM2);
              boolean seeded =
                  n >= LEAST_CELLS * part.cells() && n >= tiles.tiles(tuning.leastArrayUm2());
              return sure || seeded;
            })
        .toList();
  }

  /** Takes rows out of blocks of memory if most of them go on outside: logic between memories. */
  private static LabelRaster withoutStreets(LabelRaster block, CoreTiles tiles) {
    Components.Labelling rows = Components.label(tiles.mask(SurfaceClass.CELL_ROWS));
    int[] inBlock = new int[rows.components().size() + 1];
    for (int t = 0; t < tiles.count(); t++) {
      inBlock[rows.ids()[t]] += block.array()[t];
    }
    byte[] out = block.array().clone();
    for (int t = 0; t < out.length; t++) {
      int id = rows.ids()[t];
      if (id > 0 && inBlock[id] < ENCLOSED * rows.components().get(id - 1).cells()) {
        out[t] = 0;
      }
    }
    return LabelRaster.over(block.width(), block.height(), out);
  }
}
