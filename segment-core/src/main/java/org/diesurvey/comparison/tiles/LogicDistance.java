package org.diesurvey.comparison.tiles;

import java.util.Arrays;
import org.apache.commons.math3.linear.MatrixUtils;
import org.apache.commons.math3.linear.RealMatrix;
import org.diesurvey.comparison.registration.Structure;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.vision.ImageFilters;

/**
 * How far the ground of each tile looks from the die's own logic, in both photographs: grey and the
 * strength of contrasts of three sizes along both axes, as a Mahalanobis distance from the logic of
 * the same photograph, so that light and contrast of the photograph drop out.
 */
public final class LogicDistance {
  /** Figures of a tile: grey, three bands along x, three along y. */
  private static final int FIGURES = 7;

  /** Fewest tiles of logic that make a reference. */
  static final int LEAST_LOGIC = 60;

  /** Share of the reference that is kept: surveys call some blocks logic. */
  private static final double KEPT = 0.9;

  /** Share of the logic that lies within distance 1. */
  private static final double WITHIN = 0.95;

  /** Finest contrasts, deviations of a Gaussian in px; later bands are twice as coarse each. */
  private static final double FINEST_PX = 0.8;

  /** Geometric means over windows; 95 % of the logic lies within 1; empty without a reference. */
  private final float[] distance;

  private LogicDistance(float[] distance) {
    this.distance = distance;
  }

  /**
   * @param figures of the tiles of one die, see {@link #figures}
   * @param logic tiles that are certainly logic
   */
  static LogicDistance of(TileCorrelator tiles, double[][] figures, boolean[] logic) {
    boolean[] use = logic.clone();
    float[] d = new float[0];
    for (int k = 0; k < 3; k++) {
      d = distances(figures, use);
      if (d.length == 0) {
        return new LogicDistance(d);
      }
      float limit = (float) TileComparison.quantile(d, logic, KEPT);
      for (int i = 0; i < use.length; i++) {
        use[i] = logic[i] && d[i] <= limit;
      }
    }
    float one = (float) Math.max(1e-6, TileComparison.quantile(d, logic, WITHIN));
    float[] log = new float[d.length];
    float[] count = new float[d.length];
    Arrays.fill(count, 1);
    for (int i = 0; i < d.length; i++) {
      log[i] = (float) Math.log(d[i] / one + 1e-3);
    }
    log = tiles.windows(log);
    count = tiles.windows(count);
    for (int i = 0; i < d.length; i++) {
      d[i] = (float) Math.exp(log[i] / count[i]);
    }
    return new LogicDistance(d);
  }

  public boolean known() {
    return distance.length > 0;
  }

  public float at(int tile) {
    return distance[tile];
  }

  private static float[] distances(double[][] figures, boolean[] use) {
    int n = 0;
    double[] mean = new double[FIGURES];
    for (int i = 0; i < use.length; i++) {
      if (use[i]) {
        n++;
        for (int k = 0; k < FIGURES; k++) {
          mean[k] += figures[i][k];
        }
      }
    }
    if (n < LEAST_LOGIC) {
      return new float[0];
    }
    double[][] spread = new double[FIGURES][FIGURES];
    for (int k = 0; k < FIGURES; k++) {
      mean[k] /= n;
    }
    for (int i = 0; i < use.length; i++) {
      for (int k = 0; use[i] && k < FIGURES; k++) {
        for (int l = 0; l < FIGURES; l++) {
          spread[k][l] += (figures[i][k] - mean[k]) * (figures[i][l] - mean[l]) / n;
        }
      }
    }
    for (int k = 0; k < FIGURES; k++) {
      spread[k][k] += 1e-4;
    }
    RealMatrix inverse = MatrixUtils.inverse(MatrixUtils.createRealMatrix(spread));
    float[] out = new float[use.length];
    double[] off = new double[FIGURES];
    for (int i = 0; i < out.length; i++) {
      for (int k = 0; k < FIGURES; k++) {
        off[k] = figures[i][k] - mean[k];
      }
      double[] by = inverse.operate(off);
      double sum = 0;
      for (int k = 0; k < FIGURES; k++) {
        sum += off[k] * by[k];
      }
      out[i] = (float) Math.sqrt(Math.max(0, sum));
    }
    return out;
  }

  /** Grey over its mean and log contrasts of every window of a picture. */
  static double[][] figures(TileCorrelator tiles, GrayRaster in) {
    float[][] of = new float[FIGURES][];
    of[0] = tiles.windows(tiles.sums(in));
    for (int k = 0; k < 3; k++) {
      GrayRaster soft = ImageFilters.gaussian(in, FINEST_PX * (1 << k));
      int step = 1 << k;
      of[1 + k] = tiles.windows(tiles.sums(slopes(soft, step, 0)));
      of[4 + k] = tiles.windows(tiles.sums(slopes(soft, 0, step)));
    }
    float[] count = new float[tiles.count()];
    Arrays.fill(count, tiles.side * tiles.side);
    float[] all = tiles.windows(count);
    double[][] out = new double[tiles.count()][FIGURES];
    double scale = 0;
    for (float v : in.array()) {
      scale += v;
    }
    scale = Math.max(1e-9, Math.abs(scale / in.array().length));
    for (int i = 0; i < out.length; i++) {
      out[i][0] = of[0][i] / all[i] / scale;
      for (int k = 1; k < FIGURES; k++) {
        out[i][k] = 0.5 * Math.log(of[k][i] / all[i] / (scale * scale) + 1e-8);
      }
    }
    return out;
  }

  /** The same figures, but the logarithm of grey, as the others are logarithms. */
  static double[][] withLogOfGrey(double[][] figures) {
    double[][] out = new double[figures.length][];
    for (int i = 0; i < out.length; i++) {
      out[i] = figures[i].clone();
      out[i][0] = Math.log(Math.max(0.02, out[i][0]));
    }
    return out;
  }

  /** Squares of differences. */
  private static GrayRaster slopes(GrayRaster in, int dx, int dy) {
    GrayRaster out = Structure.differences(in, dx, dy);
    float[] v = out.array();
    for (int i = 0; i < v.length; i++) {
      v[i] *= v[i];
    }
    return out;
  }
}
