package org.diesurvey.classification.model;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.tiles.TileGrid;
import org.diesurvey.vision.Components;

/**
 * Tiles that lie together and show the same class by the mean evidence of their squares, as blocks.
 * Every tile belongs to one; crumbs join the block that is nearest along the tiles.
 */
final class TileBlocks {
  /** Tiles to each side over which evidence is averaged (chosen on drawn dies). */
  private static final int REACH = 2;

  /** Tiles of the smallest block (chosen on drawn dies). */
  private static final int FEWEST = 12;

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
  static TileBlocks of(TileProbabilities evidence) {
    TileGrid grid = evidence.grid();
    byte[] best = bestOfSquares(evidence);
    int[][] parts = new int[SurfaceClass.COUNT][];
    int[][] sizes = new int[SurfaceClass.COUNT][];
    IntStream.range(0, SurfaceClass.COUNT)
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
    int[][] numbers = new int[SurfaceClass.COUNT][];
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
    joinCrumbs(block, grid.columns());
    return new TileBlocks(grid, block, count);
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

  /** Spreads the blocks over tiles that belong to none, one step at a time. */
  private static void joinCrumbs(int[] block, int columns) {
    int[] queue = new int[block.length];
    int end = 0;
    for (int t = 0; t < block.length; t++) {
      if (block[t] != NONE) {
        queue[end++] = t;
      }
    }
    for (int at = 0; at < end; at++) {
      int t = queue[at];
      int c = t % columns;
      int[] beside = {
        t - columns, c > 0 ? t - 1 : NONE, c + 1 < columns ? t + 1 : NONE, t + columns
      };
      for (int n : beside) {
        if (n >= 0 && n < block.length && block[n] == NONE) {
          block[n] = block[t];
          queue[end++] = n;
        }
      }
    }
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
