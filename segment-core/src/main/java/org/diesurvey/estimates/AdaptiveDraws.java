package org.diesurvey.estimates;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.Function;

/**
 * Monte Carlo propagation with as many draws as its result needs: the adaptive procedure of JCGM
 * 101:2008, 7.9 (numbering from memory). Blocks of 10,000 draws are added until twice the standard
 * error of the mean, the standard uncertainty and both ends of the 95 % interval of every output is
 * below the numerical tolerance of a standard uncertainty stated with one significant digit; at
 * most 10^6 draws. The seed is fixed, so the same input gives the same result.
 */
final class AdaptiveDraws {
  static final long SEED = 20251;
  static final int BLOCK = 10_000;
  static final int MOST = 1_000_000;
  private static final int LEAST_BLOCKS = 4;

  private AdaptiveDraws() {}

  /**
   * Draws until the outputs are stable.
   *
   * @param outputs how many there are
   * @param draw one draw of all outputs
   * @return the draws of each output
   */
  static List<Samples> run(int outputs, Function<SplittableRandom, double[]> draw) {
    SplittableRandom random = new SplittableRandom(SEED);
    List<Samples> all = new ArrayList<>();
    List<List<double[]>> summaries = new ArrayList<>();
    for (int o = 0; o < outputs; o++) {
      all.add(new Samples());
      summaries.add(new ArrayList<>());
    }
    for (int done = 0; done < MOST; done += BLOCK) {
      for (int i = 0; i < BLOCK; i++) {
        double[] y = draw.apply(random);
        for (int o = 0; o < outputs; o++) {
          all.get(o).add(y[o]);
        }
      }
      boolean stable = done / BLOCK + 1 >= LEAST_BLOCKS;
      for (int o = 0; o < outputs; o++) {
        summaries.get(o).add(all.get(o).summary(done, done + BLOCK));
        stable &= stable(summaries.get(o));
      }
      if (stable) {
        break;
      }
    }
    return all;
  }

  private static boolean stable(List<double[]> blocks) {
    int h = blocks.size();
    double u = blocks.stream().mapToDouble(b -> b[1]).average().orElseThrow();
    if (u == 0) {
      return true;
    }
    double tolerance = 0.5 * Math.pow(10, Math.floor(Math.log10(u)));
    for (int k = 0; k < 4; k++) {
      int at = k;
      double mean = blocks.stream().mapToDouble(b -> b[at]).average().orElseThrow();
      double square = blocks.stream().mapToDouble(b -> (b[at] - mean) * (b[at] - mean)).sum();
      if (h < 2 || 2 * Math.sqrt(square / (h * (h - 1.0))) >= tolerance) {
        return false;
      }
    }
    return true;
  }
}
