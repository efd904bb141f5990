package org.diesurvey.regions;

import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.tiles.TileGrid;

/**
 * Mean log probability of each class over a tile and its eight neighbours, damaged ones left out.
 */
final class SmoothedEvidence {
  /** Added to a probability before its logarithm is taken (own choice). */
  private static final double FLOOR = 0.01;

  private static final int[] WEIGHTS = {1, 2, 1};

  private final float[] score;

  private SmoothedEvidence(float[] score) {
    this.score = score;
  }

  /**
   * @param inside tiles that count
   * @param ioAllowed whether I/O cells may stand there; else what looks like one is a macro
   */
  static SmoothedEvidence of(
      TileProbabilities probabilities, FeatureTable features, boolean[] inside, boolean ioAllowed) {
    TileGrid grid = probabilities.grid();
    float[] logs = logs(probabilities, ioAllowed);
    float[] score = new float[logs.length];
    for (int r = 0; r < grid.rows(); r++) {
      for (int c = 0; c < grid.columns(); c++) {
        float total = 0;
        float[] sum = new float[SurfaceClass.COUNT];
        for (int y = Math.max(0, r - 1); y <= Math.min(grid.rows() - 1, r + 1); y++) {
          for (int x = Math.max(0, c - 1); x <= Math.min(grid.columns() - 1, c + 1); x++) {
            int near = y * grid.columns() + x;
            if (!inside[near] || features.damaged(near)) {
              continue;
            }
            int w = WEIGHTS[y - r + 1] * WEIGHTS[x - c + 1];
            total += w;
            for (int k = 0; k < sum.length; k++) {
              sum[k] += w * logs[near * SurfaceClass.COUNT + k];
            }
          }
        }
        int at = (r * grid.columns() + c) * SurfaceClass.COUNT;
        for (int k = 0; k < sum.length; k++) {
          score[at + k] = total == 0 ? 0 : sum[k] / total;
        }
      }
    }
    return new SmoothedEvidence(score);
  }

  private static float[] logs(TileProbabilities probabilities, boolean ioAllowed) {
    int tiles = probabilities.grid().count();
    float[] logs = new float[tiles * SurfaceClass.COUNT];
    for (int t = 0; t < tiles; t++) {
      for (SurfaceClass c : SurfaceClass.values()) {
        double p = probabilities.get(t, c);
        if (!ioAllowed && c == SurfaceClass.IO_CELLS) {
          p = 0;
        } else if (!ioAllowed && c == SurfaceClass.MACRO) {
          p += probabilities.get(t, SurfaceClass.IO_CELLS);
        }
        logs[t * SurfaceClass.COUNT + c.ordinal()] = (float) Math.log(p + FLOOR);
      }
    }
    return logs;
  }

  /** The class that a tile shows most of. */
  SurfaceClass best(int tile) {
    return best(tile, false);
  }

  /** The same of the classes that are no part of a memory. */
  SurfaceClass bestButMemory(int tile) {
    return best(tile, true);
  }

  private SurfaceClass best(int tile, boolean butMemory) {
    SurfaceClass best = null;
    for (SurfaceClass c : SurfaceClass.values()) {
      boolean memory = c == SurfaceClass.BIT_CELLS || c == SurfaceClass.PERIPHERY;
      if (butMemory && memory) {
        continue;
      }
      if (best == null || score(tile, c) > score(tile, best)) {
        best = c;
      }
    }
    return best;
  }

  private float score(int tile, SurfaceClass c) {
    return score[tile * SurfaceClass.COUNT + c.ordinal()];
  }
}
