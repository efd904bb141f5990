package org.diesurvey.inspection;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.diesurvey.raster.GrayRaster;

/**
 * Standard deviation of the pixel noise, from the quietest blocks of the photograph.
 *
 * <p>In every block: sigma = sqrt(pi/2) / (6 n) * sum |I * N| with N = [1 -2 1; -2 4 -2; 1 -2 1],
 * which no even grey and no straight edge along the axes excites (J. Immerkaer, "Fast Noise
 * Variance Estimation", Computer Vision and Image Understanding 64 (1996) 300-302; formula from
 * memory). Differs from the paper: the layout of a die excites N, so blocks are judged one by one
 * and only those near the quiet end count.
 */
final class NoiseMeter {
  /** Side of a block, px. Pure noise then scatters by about 4 % from block to block. */
  static final int BLOCK_PX = 32;

  /** Place of the quiet end among all blocks. */
  private static final double QUIET_END = 0.05;

  /** Blocks up to this much above the quiet end count as free of layout: 3 of the 4 % scatters. */
  private static final double ABOVE_QUIET = 1.25;

  /** Least blocks of one level of grey to give that level a figure. */
  private static final int LEAST_BLOCKS = 20;

  private static final int LEVELS = 8;

  /** A block: mean grey and noise, both 0 to 1. */
  private record Block(double grey, double sigma) {}

  private final List<Block> blocks = new ArrayList<>();

  /** Adds the blocks of a window. */
  void add(GrayRaster window) {
    int side = Math.min(BLOCK_PX, Math.min(window.width(), window.height()));
    for (int y = 0; y + side <= window.height(); y += side) {
      for (int x = 0; x + side <= window.width(); x += side) {
        blocks.add(block(window, x, y, side));
      }
    }
  }

  private static Block block(GrayRaster window, int x0, int y0, int side) {
    double mean = 0;
    for (int y = y0; y < y0 + side; y++) {
      for (int x = x0; x < x0 + side; x++) {
        mean += window.get(x, y);
      }
    }
    return new Block(mean / (side * side), sigma(window, x0, y0, side));
  }

  /** Immerkaer's estimate over the inside of a block, in the unit of the raster. */
  static double sigma(GrayRaster in, int x0, int y0, int side) {
    float[] a = in.array();
    int w = in.width();
    double sum = 0;
    for (int y = y0 + 1; y < y0 + side - 1; y++) {
      for (int i = y * w + x0 + 1; i < y * w + x0 + side - 1; i++) {
        float cross = a[i - w] + a[i + w] + a[i - 1] + a[i + 1];
        float diagonal = a[i - w - 1] + a[i - w + 1] + a[i + w - 1] + a[i + w + 1];
        sum += Math.abs(diagonal - 2 * cross + 4 * a[i]);
      }
    }
    return Math.sqrt(Math.PI / 2) / (6.0 * (side - 2) * (side - 2)) * sum;
  }

  /** The result; noise 0 where no block was added. */
  Noise noise() {
    List<Noise.AtLevel> levels = new ArrayList<>();
    for (int k = 0; k < LEVELS; k++) {
      double low = k / (double) LEVELS;
      double high = (k + 1) / (double) LEVELS;
      double[] sigmas =
          blocks.stream()
              .filter(b -> b.grey >= low && b.grey < high)
              .mapToDouble(Block::sigma)
              .sorted()
              .toArray();
      if (sigmas.length >= LEAST_BLOCKS) {
        levels.add(new Noise.AtLevel((low + high) / 2, quiet(sigmas)));
      }
    }
    double[] all = blocks.stream().mapToDouble(Block::sigma).sorted().toArray();
    return new Noise(quiet(all), levels);
  }

  private static double quiet(double[] sorted) {
    if (sorted.length == 0) {
      return 0;
    }
    double end = sorted[(int) (QUIET_END * (sorted.length - 1))];
    int n = 0;
    while (n < sorted.length && sorted[n] <= ABOVE_QUIET * end) {
      n++;
    }
    double[] free = Arrays.copyOf(sorted, Math.max(1, n));
    return free[free.length / 2];
  }
}
