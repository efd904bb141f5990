package org.diesurvey.regions;

import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.tiles.TileGrid;
import org.diesurvey.vision.Components;
import org.diesurvey.vision.Morphology;

/**
 * One label per tile inside the pad ring: smoothed evidence first, then what a person would require
 * of a block: a least size, no pinholes, periphery only in a memory.
 */
final class CoreLabelling {
  /** Label of tiles that are not core. */
  static final int OUTSIDE = 200;

  /** Added to labels that are settled while others are still open. */
  private static final int KEPT = 1000;

  /** Least area of a memory's bit cells, um2. */
  private static final double LEAST_ARRAY_UM2 = 900;

  /** Least area of a hard macro, um2: a device group of 20 um. */
  private static final double LEAST_MACRO_UM2 = 380;

  /** Channels between blocks are narrower than this, um (common practice, no source). */
  private static final double BROAD_UM = 36;

  /** Bare gaps between the devices of one macro are narrower than twice this, um (own choice). */
  private static final double NEAR_UM = 16;

  /** Bare ground wider than this is no part of a macro, um (own choice). */
  private static final double WIDE_UM = 48;

  /** Least area of a bare surface that is reported, um2. */
  private static final double LEAST_BARE_UM2 = 6000;

  /** Mean probability of bit cells and periphery that makes a block a memory (on drawn dies). */
  private static final double SURELY_MEMORY = 0.6;

  /** Least area of such a block, um2. */
  private static final double LEAST_MEMORY_UM2 = 2500;

  /** Bit cells are at least this share of a block of which less is sure. */
  private static final double LEAST_CELLS = 1.0 / 30;

  /** Holes of a memory up to this share of it belong to it (on drawn dies). */
  private static final double HOLES = 0.15;

  /** Holes of a bit-cell array up to this share of it belong to it. */
  private static final double ARRAY_HOLES = 0.6;

  /** Share of a patch of rows inside a memory from which it belongs to the memory. */
  private static final double ENCLOSED = 0.7;

  private static final double FLOOR = 0.01;

  private final TileProbabilities probabilities;
  private final TileGrid grid;
  private final boolean[] inside;
  private final float[] score;
  private final int[] label;
  private boolean[] plate;

  private CoreLabelling(TileProbabilities probabilities, boolean[] inside) {
    this.probabilities = probabilities;
    this.grid = probabilities.grid();
    this.inside = inside;
    this.score = new float[grid.count() * SurfaceClass.COUNT];
    this.label = new int[grid.count()];
  }

  /**
   * Labels the core.
   *
   * @param inside tiles that are core
   * @param ioAllowed whether I/O cells may stand in the core (a photograph without a die edge)
   */
  static CoreLabelling of(
      TileProbabilities probabilities, FeatureTable features, boolean[] inside, boolean ioAllowed) {
    CoreLabelling l = new CoreLabelling(probabilities, inside);
    l.smooth(features, ioAllowed);
    l.decide();
    l.coverDamage(features);
    ObliqueStrips.clear(l.label, l.grid);
    WeakPatches.settle(l.label, probabilities);
    l.plates(features);
    l.memories();
    l.macros();
    l.pinholes();
    return l;
  }

  /** Plates in bare ground are macros. */
  private void plates(FeatureTable features) {
    plate = FlatPlates.tiles(label, features.fine(), grid);
    for (int t = 0; t < label.length; t++) {
      label[t] = plate[t] ? SurfaceClass.MACRO.ordinal() : label[t];
    }
  }

  /** Whether a tile is a macro for the plate that it lies in. */
  boolean plate(int tile) {
    return plate[tile];
  }

  /** Label of a tile: ordinal of a {@link SurfaceClass}, or OUTSIDE. */
  int label(int tile) {
    return label[tile];
  }

  private void smooth(FeatureTable features, boolean ioAllowed) {
    int columns = grid.columns();
    int rows = grid.rows();
    float[] logs = new float[score.length];
    for (int t = 0; t < grid.count(); t++) {
      for (SurfaceClass c : SurfaceClass.values()) {
        double p = probabilities.get(t, c);
        if (!ioAllowed && c == SurfaceClass.IO_CELLS) {
          p = 0;
        } else if (!ioAllowed && c == SurfaceClass.MACRO) {
          // Inside the ring, what looks like an I/O cell is a macro.
          p += probabilities.get(t, SurfaceClass.IO_CELLS);
        }
        logs[t * SurfaceClass.COUNT + c.ordinal()] = (float) Math.log(p + FLOOR);
      }
    }
    int[] weights = {1, 2, 1};
    for (int r = 0; r < rows; r++) {
      for (int c = 0; c < columns; c++) {
        int t = r * columns + c;
        float total = 0;
        float[] sum = new float[SurfaceClass.COUNT];
        for (int i = -1; i <= 1; i++) {
          for (int j = -1; j <= 1; j++) {
            int y = r + i;
            int x = c + j;
            if (y < 0
                || x < 0
                || y >= rows
                || x >= columns
                || !inside[y * columns + x]
                || features.damaged(y * columns + x)) {
              continue;
            }
            int w = weights[i + 1] * weights[j + 1];
            total += w;
            for (int k = 0; k < sum.length; k++) {
              sum[k] += w * logs[(y * columns + x) * SurfaceClass.COUNT + k];
            }
          }
        }
        for (int k = 0; k < sum.length; k++) {
          score[t * SurfaceClass.COUNT + k] = total == 0 ? 0 : sum[k] / total;
        }
      }
    }
  }

  private void decide() {
    for (int t = 0; t < label.length; t++) {
      label[t] = inside[t] ? best(t, null, null) : OUTSIDE;
    }
  }

  /** Damaged tiles take the label of what surrounds them. */
  private void coverDamage(FeatureTable features) {
    boolean[] open = new boolean[label.length];
    for (int t = 0; t < label.length; t++) {
      open[t] = label[t] != OUTSIDE && features.damaged(t);
    }
    LabelSpread.into(label, open, grid, OUTSIDE);
  }

  private int best(int tile, SurfaceClass without, SurfaceClass alsoWithout) {
    int at = -1;
    for (SurfaceClass c : SurfaceClass.values()) {
      if (c == without || c == alsoWithout) {
        continue;
      }
      if (at < 0 || score(tile, c.ordinal()) > score(tile, at)) {
        at = c.ordinal();
      }
    }
    return at;
  }

  private float score(int tile, int c) {
    return score[tile * SurfaceClass.COUNT + c];
  }

  private LabelRaster mask(int... labels) {
    byte[] m = new byte[label.length];
    for (int t = 0; t < m.length; t++) {
      for (int l : labels) {
        if (label[t] == l) {
          m[t] = 1;
        }
      }
    }
    return LabelRaster.over(grid.columns(), grid.rows(), m);
  }

  private int tiles(double areaUm2) {
    return Math.max(2, (int) Math.round(areaUm2 / (grid.tileUm() * grid.tileUm())));
  }

  /**
   * Blocks that hold bit cells, or are surely memory without: arrays, their periphery, and small
   * holes in them.
   */
  private void memories() {
    int cells = SurfaceClass.BIT_CELLS.ordinal();
    int periphery = SurfaceClass.PERIPHERY.ordinal();
    LabelRaster seeds =
        TileMasks.largeParts(Morphology.open(mask(cells), 1), tiles(LEAST_ARRAY_UM2));
    LabelRaster block = TileMasks.fillHoles(Morphology.close(mask(cells, periphery), 1), HOLES);
    block = withoutStreets(Morphology.open(block, 1));
    LabelRaster arrays = TileMasks.fillHoles(Morphology.close(mask(cells), 1), ARRAY_HOLES);
    Components.Labelling parts = Components.label(block);
    int[] seed = new int[parts.components().size() + 1];
    double[] evidence = new double[seed.length];
    for (int t = 0; t < label.length; t++) {
      int id = parts.ids()[t];
      seed[id] += seeds.array()[t] != 0 ? 1 : 0;
      evidence[id] +=
          probabilities.get(t, SurfaceClass.BIT_CELLS)
              + probabilities.get(t, SurfaceClass.PERIPHERY);
    }
    for (Components.Component part : parts.components()) {
      int n = seed[part.id()];
      boolean sure =
          evidence[part.id()] >= SURELY_MEMORY * part.cells()
              && part.cells() >= tiles(LEAST_MEMORY_UM2);
      boolean seeded = n >= LEAST_CELLS * part.cells() && n >= tiles(LEAST_ARRAY_UM2);
      if (!sure && !seeded) {
        continue;
      }
      LabelRaster shape = TileMasks.regular(parts, part, grid.columns(), grid.rows());
      for (int t = 0; t < label.length; t++) {
        if (shape.array()[t] != 0 && inside[t]) {
          // Rows do not stand inside a memory: there the lattice was too faint to tell.
          boolean array = arrays.array()[t] != 0 || label[t] == SurfaceClass.CELL_ROWS.ordinal();
          label[t] = KEPT + (array ? cells : periphery);
        }
      }
    }
    for (int t = 0; t < label.length; t++) {
      if (label[t] == cells || label[t] == periphery) {
        label[t] = best(t, SurfaceClass.PERIPHERY, SurfaceClass.BIT_CELLS);
      }
    }
    unkeep();
  }

  /** Takes rows out of blocks of memory if most of them go on outside: logic between memories. */
  private LabelRaster withoutStreets(LabelRaster block) {
    Components.Labelling rows = Components.label(mask(SurfaceClass.CELL_ROWS.ordinal()));
    int[] inBlock = new int[rows.components().size() + 1];
    for (int t = 0; t < label.length; t++) {
      inBlock[rows.ids()[t]] += block.array()[t];
    }
    byte[] out = block.array().clone();
    for (int t = 0; t < out.length; t++) {
      int id = rows.ids()[t];
      if (id > 0 && inBlock[id] < ENCLOSED * rows.components().get(id - 1).cells()) {
        out[t] = 0;
      }
    }
    return LabelRaster.over(grid.columns(), grid.rows(), out);
  }

  private void unkeep() {
    for (int t = 0; t < label.length; t++) {
      if (label[t] >= KEPT) {
        label[t] -= KEPT;
      }
    }
  }

  /**
   * Blocks that are neither memory nor rows: macros if devices stand in them, bare if not. Broad
   * ones first, so that the channels which join them to others fall away; then small ones that are
   * compact.
   */
  private void macros() {
    int macro = SurfaceClass.MACRO.ordinal();
    int bare = SurfaceClass.BARE.ordinal();
    int broad = Math.max(1, (int) Math.round(BROAD_UM / 2 / grid.tileUm()));
    wideBare();
    settle(Components.label(Morphology.open(mask(macro, bare), broad)), false);
    settle(Components.label(Morphology.open(mask(macro, bare), 1)), true);
    boolean[] open = new boolean[label.length];
    for (int t = 0; t < label.length; t++) {
      open[t] = label[t] == macro || label[t] == bare;
    }
    unkeep();
    LabelSpread.into(label, open, grid, OUTSIDE);
  }

  /**
   * Bare ground wider than any channel and away from devices belongs to no macro: blocks that stand
   * in it are told apart.
   */
  private void wideBare() {
    int bare = SurfaceClass.BARE.ordinal();
    int near = Math.max(1, (int) Math.round(NEAR_UM / grid.tileUm()));
    int wide = Math.max(1, (int) Math.round(WIDE_UM / 2 / grid.tileUm()));
    LabelRaster devices = Morphology.close(mask(SurfaceClass.MACRO.ordinal()), near);
    byte[] ground = mask(bare).array().clone();
    for (int t = 0; t < ground.length; t++) {
      ground[t] = devices.array()[t] != 0 ? 0 : ground[t];
    }
    LabelRaster open = Morphology.open(LabelRaster.over(grid.columns(), grid.rows(), ground), wide);
    LabelRaster large = TileMasks.largeParts(open, tiles(LEAST_BARE_UM2));
    for (int t = 0; t < label.length; t++) {
      if (large.array()[t] != 0) {
        label[t] = KEPT + bare;
      }
    }
  }

  private void settle(Components.Labelling parts, boolean compactOnly) {
    int macro = SurfaceClass.MACRO.ordinal();
    int bare = SurfaceClass.BARE.ordinal();
    int rows = SurfaceClass.CELL_ROWS.ordinal();
    int[] devices = new int[parts.components().size() + 1];
    for (int t = 0; t < label.length; t++) {
      devices[parts.ids()[t]] += label[t] == macro ? 1 : 0;
    }
    for (Components.Component part : parts.components()) {
      int shortSide = Math.min(part.bounds().width(), part.bounds().height());
      int longSide = Math.max(part.bounds().width(), part.bounds().height());
      if (compactOnly && (longSide > 3 * shortSide || part.cells() * 2 < shortSide * longSide)) {
        continue;
      }
      boolean isMacro =
          devices[part.id()] * 4 >= part.cells() && part.cells() >= tiles(LEAST_MACRO_UM2);
      boolean isBare = !isMacro && part.cells() >= tiles(LEAST_BARE_UM2);
      if (!isMacro && !isBare) {
        continue;
      }
      LabelRaster shape = TileMasks.regular(parts, part, grid.columns(), grid.rows());
      for (int t = 0; t < label.length; t++) {
        boolean free = label[t] == macro || label[t] == bare || label[t] == rows;
        if (shape.array()[t] != 0 && free) {
          label[t] = KEPT + (isMacro ? macro : bare);
        }
      }
    }
  }

  /** Logic specks below the least macro size inside other blocks take their surroundings' label. */
  private void pinholes() {
    int rows = SurfaceClass.CELL_ROWS.ordinal();
    Components.Labelling parts = Components.label(mask(rows));
    boolean[] small = new boolean[parts.components().size() + 1];
    for (Components.Component p : parts.components()) {
      small[p.id()] = p.cells() < tiles(3 * LEAST_ARRAY_UM2);
    }
    boolean[] open = new boolean[label.length];
    for (int t = 0; t < label.length; t++) {
      open[t] = label[t] == rows && small[parts.ids()[t]];
    }
    LabelSpread.into(label, open, grid, OUTSIDE);
  }
}
