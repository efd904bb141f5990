package org.diesurvey.classification.model;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.tiles.TileGrid;
import org.diesurvey.vision.Components;
import org.diesurvey.vision.Morphology;

/**
 * Tiles that lie together and show the same class by the mean evidence of their squares, as blocks.
 * What shows more contrast than the bare ground among which it was counted is a block of its own:
 * devices that the tiles took for ground. Every tile belongs to a block; crumbs join the one that
 * is nearest along the tiles.
 */
final class TileBlocks {
  /** Tiles to each side over which evidence is averaged (chosen on drawn dies). */
  private static final int REACH = 2;

  /** Tiles of the smallest block (chosen on drawn dies). */
  private static final int FEWEST = 12;

  /** In place of a class: bare ground that shows more than the rest of it. */
  private static final int BUSY = SurfaceClass.COUNT;

  private static final int KINDS = SurfaceClass.COUNT + 1;

  /** Contrast over that of bare ground from which a place shows something (own choice). */
  private static final double SHOWN_OVER_GROUND = 1.5;

  /** With fewer bare tiles nothing is known of the ground. */
  private static final int FEWEST_BARE = 30;

  private static final int NONE = -1;

  private final TileGrid grid;
  private final int[] block;
  private final int count;

  private TileBlocks(TileGrid grid, int[] block, int count) {
    this.grid = grid;
    this.block = block;
    this.count = count;
  }

  /** Divides all tiles; runs on the calling thread's fork-join pool. */
  static TileBlocks of(TileProbabilities evidence, FeatureTable features) {
    TileGrid grid = evidence.grid();
    byte[] best = bestOfSquares(evidence);
    markBusy(best, features);
    int[][] parts = new int[KINDS][];
    int[][] sizes = new int[KINDS][];
    IntStream.range(0, KINDS)
        .parallel()
        .forEach(
            k -> {
              byte[] mask = new byte[best.length];
              for (int t = 0; t < mask.length; t++) {
                mask[t] = (byte) (best[t] == k ? 1 : 0);
              }
              Components.Labelling found =
                  Components.label(LabelRaster.over(grid.columns(), grid.rows(), mask));
              parts[k] = found.ids();
              sizes[k] = new int[found.components().size() + 1];
              found.components().forEach(c -> sizes[k][c.id()] = c.cells());
            });
    int[] block = new int[best.length];
    int[][] numbers = new int[KINDS][];
    for (int k = 0; k < numbers.length; k++) {
      numbers[k] = new int[sizes[k].length];
      Arrays.fill(numbers[k], NONE);
    }
    int count = 0;
    for (int t = 0; t < block.length; t++) {
      int id = parts[best[t]][t];
      block[t] = NONE;
      if (sizes[best[t]][id] >= FEWEST) {
        int[] of = numbers[best[t]];
        of[id] = of[id] == NONE ? count++ : of[id];
        block[t] = of[id];
      }
    }
    if (count == 0) {
      return new TileBlocks(grid, new int[block.length], 1);
    }
    Components.spread(block, NONE, grid.columns(), t -> true);
    return new TileBlocks(grid, block, count);
  }

  /** Marks bare tiles whose squares of three show clearly more than the median of them. */
  private static void markBusy(byte[] best, FeatureTable features) {
    TileGrid grid = features.grid();
    float[] log = new float[best.length];
    double[] bare = new double[best.length];
    int n = 0;
    for (int t = 0; t < best.length; t++) {
      log[t] = (float) Math.log(features.contrast(t) + 1e-4);
      if (best[t] == SurfaceClass.BARE.ordinal()) {
        bare[n++] = log[t];
      }
    }
    if (n < FEWEST_BARE) {
      return;
    }
    Arrays.sort(bare, 0, n);
    double least = bare[n / 2] + Math.log(SHOWN_OVER_GROUND);
    BoxSums sums = new BoxSums(log, 1, grid.columns(), grid.rows());
    double[] sum = new double[1];
    byte[] mask = new byte[best.length];
    for (int t = 0; t < best.length; t++) {
      int r = t / grid.columns();
      int c = t % grid.columns();
      sums.sum(r - 1, r + 2, c - 1, c + 2, sum);
      int tiles =
          (Math.min(grid.rows(), r + 2) - Math.max(0, r - 1))
              * (Math.min(grid.columns(), c + 2) - Math.max(0, c - 1));
      boolean busy = best[t] == SurfaceClass.BARE.ordinal() && sum[0] / tiles > least;
      mask[t] = (byte) (busy ? 1 : 0);
    }
    LabelRaster opened = Morphology.open(LabelRaster.over(grid.columns(), grid.rows(), mask), 1);
    for (int t = 0; t < best.length; t++) {
      best[t] = opened.array()[t] != 0 ? (byte) BUSY : best[t];
    }
  }

  private static byte[] bestOfSquares(TileProbabilities evidence) {
    TileGrid grid = evidence.grid();
    int k = SurfaceClass.COUNT;
    float[] values = new float[grid.count() * k];
    for (int t = 0; t < grid.count(); t++) {
      for (SurfaceClass c : SurfaceClass.values()) {
        values[t * k + c.ordinal()] = evidence.get(t, c);
      }
    }
    BoxSums sums = new BoxSums(values, k, grid.columns(), grid.rows());
    byte[] out = new byte[grid.count()];
    double[] sum = new double[k];
    for (int t = 0; t < out.length; t++) {
      int r = t / grid.columns();
      int c = t % grid.columns();
      sums.sum(r - REACH, r + REACH + 1, c - REACH, c + REACH + 1, sum);
      for (int i = 1; i < k; i++) {
        out[t] = (byte) (sum[i] > sum[out[t]] ? i : out[t]);
      }
    }
    return out;
  }

  TileGrid grid() {
    return grid;
  }

  /** Number of blocks. */
  int count() {
    return count;
  }

  /** Block of a tile, from 0. */
  int of(int tile) {
    return block[tile];
  }
}
