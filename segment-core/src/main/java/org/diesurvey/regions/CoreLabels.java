package org.diesurvey.regions;

import java.util.Arrays;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.tiles.TileGrid;
import org.diesurvey.vision.Components;

/**
 * One label per tile inside the pad ring: smoothed evidence first, then what a person would require
 * of a block: a least size, no pinholes, periphery only next to bit cells.
 */
final class CoreLabels {
  /** Label of tiles that are not core. */
  static final int OUTSIDE = 200;

  /** Least area of a memory's bit cells, um2. */
  private static final double LEAST_ARRAY_UM2 = 900;

  /** Least area of a hard macro, um2: a device group of 20 um. */
  private static final double LEAST_MACRO_UM2 = 380;

  /** Least area of a bare surface that is reported, um2. */
  private static final double LEAST_BARE_UM2 = 6000;

  private static final double FLOOR = 0.01;

  private final TileProbabilities probabilities;
  private final TileGrid grid;
  private final boolean[] inside;
  private final float[] score;
  private final int[] label;

  private CoreLabels(TileProbabilities probabilities, boolean[] inside) {
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
  static CoreLabels of(
      TileProbabilities probabilities, FeatureTable features, boolean[] inside, boolean ioAllowed) {
    CoreLabels l = new CoreLabels(probabilities, inside);
    l.smooth(ioAllowed);
    l.decide();
    l.memories();
    l.macros();
    l.bare();
    l.pinholes();
    return l;
  }

  /** Label of a tile: ordinal of a {@link SurfaceClass}, or OUTSIDE. */
  int label(int tile) {
    return label[tile];
  }

  TileGrid grid() {
    return grid;
  }

  private void smooth(boolean ioAllowed) {
    int columns = grid.columns();
    int rows = grid.rows();
    float[] logs = new float[score.length];
    for (int t = 0; t < grid.count(); t++) {
      for (SurfaceClass c : SurfaceClass.values()) {
        double p = probabilities.get(t, c);
        if (c == SurfaceClass.IO_CELLS && !ioAllowed) {
          p = 0;
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
            if (y < 0 || x < 0 || y >= rows || x >= columns || !inside[y * columns + x]) {
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

  private void memories() {
    int cells = SurfaceClass.BIT_CELLS.ordinal();
    int periphery = SurfaceClass.PERIPHERY.ordinal();
    LabelRaster arrays = Components.openOrClose(mask(cells), -1);
    drop(cells, arrays, tiles(LEAST_ARRAY_UM2), SurfaceClass.BIT_CELLS);
    // Periphery far from any bit cell is something else.
    Components.Labelling both = Components.label(Components.openOrClose(mask(cells, periphery), 1));
    int n = both.components().size() + 1;
    int[] arrayTiles = new int[n];
    int[] peripheryTiles = new int[n];
    for (int t = 0; t < label.length; t++) {
      if (label[t] == cells) {
        arrayTiles[both.ids()[t]]++;
      } else if (label[t] == periphery) {
        peripheryTiles[both.ids()[t]]++;
      }
    }
    for (int t = 0; t < label.length; t++) {
      int id = both.ids()[t];
      if (label[t] == periphery && arrayTiles[id] * 12 < peripheryTiles[id]) {
        label[t] = best(t, SurfaceClass.PERIPHERY, SurfaceClass.BIT_CELLS);
      }
    }
  }

  private void macros() {
    int macro = SurfaceClass.MACRO.ordinal();
    drop(macro, mask(macro), tiles(LEAST_MACRO_UM2), SurfaceClass.MACRO);
  }

  /**
   * Takes a label from tiles that are not in the kept mask or in components below the least size.
   */
  private void drop(int of, LabelRaster kept, int leastTiles, SurfaceClass c) {
    Components.Labelling parts = Components.label(kept);
    boolean[] good = new boolean[parts.components().size() + 1];
    for (Components.Component p : parts.components()) {
      good[p.id()] = p.cells() >= leastTiles;
    }
    for (int t = 0; t < label.length; t++) {
      if (label[t] == of && !good[parts.ids()[t]]) {
        label[t] = best(t, c, c == SurfaceClass.BIT_CELLS ? SurfaceClass.PERIPHERY : null);
      }
    }
  }

  private void bare() {
    int bare = SurfaceClass.BARE.ordinal();
    Components.Labelling parts = Components.label(Components.openOrClose(mask(bare), -1));
    boolean[] good = new boolean[parts.components().size() + 1];
    for (Components.Component p : parts.components()) {
      good[p.id()] = p.cells() >= tiles(LEAST_BARE_UM2);
    }
    boolean[] open = new boolean[label.length];
    for (int t = 0; t < label.length; t++) {
      open[t] = label[t] == bare && !good[parts.ids()[t]];
    }
    spread(open);
  }

  /** Gives open tiles the label of their nearest labelled neighbours, ring by ring. */
  private void spread(boolean[] open) {
    int columns = grid.columns();
    boolean changed = true;
    while (changed) {
      changed = false;
      int[] next = label.clone();
      boolean[] still = open.clone();
      for (int t = 0; t < label.length; t++) {
        if (!open[t]) {
          continue;
        }
        int[] votes = new int[SurfaceClass.COUNT];
        for (int[] d : new int[][] {{-1, 0}, {1, 0}, {0, -1}, {0, 1}}) {
          int r = t / columns + d[0];
          int c = t % columns + d[1];
          if (r >= 0 && c >= 0 && r < grid.rows() && c < columns) {
            int u = r * columns + c;
            if (!open[u] && label[u] != OUTSIDE) {
              votes[label[u]]++;
            }
          }
        }
        int at = 0;
        for (int k = 1; k < votes.length; k++) {
          if (votes[k] > votes[at]) {
            at = k;
          }
        }
        if (votes[at] > 0) {
          next[t] = at;
          still[t] = false;
          changed = true;
        }
      }
      System.arraycopy(next, 0, label, 0, label.length);
      System.arraycopy(still, 0, open, 0, open.length);
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
    boolean any = false;
    for (int t = 0; t < label.length; t++) {
      open[t] = label[t] == rows && small[parts.ids()[t]];
      any |= open[t];
    }
    if (any && !Arrays.equals(open, inside)) {
      spread(open);
    }
  }
}
