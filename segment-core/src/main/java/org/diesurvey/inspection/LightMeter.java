package org.diesurvey.inspection;

import java.util.Arrays;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.LUDecomposition;
import org.diesurvey.preparation.DieLocation;
import org.diesurvey.raster.GrayRaster;

/**
 * Slow fall-off of the light, as a second-order surface through the logarithm of the grey level of
 * a grid of cells, fitted by iteratively reweighted least squares with Cauchy weights (Holland and
 * Welsch 1977, from memory), so that blocks of another brightness pull little.
 *
 * <p>Places run from -1 to 1 over the photograph's width and height.
 */
final class LightMeter {
  private static final int CELLS = 28;

  /**
   * Which level of a cell counts, as a share of its pixels. The dark ground between structures is
   * the same in all blocks: on drawn dies in even light the fall-off came out as 0 to 7 % with 0.2,
   * but as up to 16 % with the median and 24 % with 0.8.
   */
  private static final double GROUND = 0.2;

  private static final int LEAST_CELLS = 40;
  private static final int PASSES = 10;

  /** Terms 1, u, v, u2, u v, v2. */
  private static final int TERMS = 6;

  private final double[] c;
  private final double low;
  private final double high;

  private LightMeter(double[] c, double low, double high) {
    this.c = c;
    this.low = low;
    this.high = high;
  }

  /**
   * @param reduced the photograph reduced by {@code factor}
   */
  static LightMeter of(GrayRaster reduced, int factor, DieLocation frame) {
    int w = reduced.width();
    int h = reduced.height();
    double[][] rows = new double[CELLS * CELLS][];
    int n = 0;
    for (int j = 0; j < CELLS; j++) {
      for (int i = 0; i < CELLS; i++) {
        double x = (i + 0.5) / CELLS;
        double y = (j + 0.5) / CELLS;
        if (frame.edgeFound()
            && !FieldGrid.inside(frame.corners(), x * w * factor, y * h * factor)) {
          continue;
        }
        double grey =
            ground(reduced, i * w / CELLS, (i + 1) * w / CELLS, j * h / CELLS, (j + 1) * h / CELLS);
        rows[n++] = new double[] {2 * x - 1, 2 * y - 1, Math.log(Math.max(0.01, grey))};
      }
    }
    double[] c = fit(Arrays.copyOf(rows, n));
    double low = Double.MAX_VALUE;
    double high = -Double.MAX_VALUE;
    for (int k = 0; k < n; k++) {
      double value = value(c, rows[k][0], rows[k][1]);
      low = Math.min(low, value);
      high = Math.max(high, value);
    }
    return n < LEAST_CELLS ? new LightMeter(new double[TERMS], 0, 0) : new LightMeter(c, low, high);
  }

  /** Level of the dark ground in a rectangle of the reduced picture. */
  private static double ground(GrayRaster in, int x0, int x1, int y0, int y1) {
    int w = Math.max(1, x1 - x0);
    int h = Math.max(1, y1 - y0);
    float[] grey = new float[w * h];
    for (int y = 0; y < h; y++) {
      for (int x = 0; x < w; x++) {
        grey[y * w + x] =
            in.get(Math.min(in.width() - 1, x0 + x), Math.min(in.height() - 1, y0 + y));
      }
    }
    Arrays.sort(grey);
    return grey[(int) (GROUND * (grey.length - 1))];
  }

  private static double[] fit(double[][] rows) {
    double[] weight = new double[rows.length];
    Arrays.fill(weight, 1);
    double[] c = new double[TERMS];
    for (int pass = 0; pass < PASSES && rows.length >= LEAST_CELLS; pass++) {
      c = solve(rows, weight);
      double[] off = new double[rows.length];
      for (int i = 0; i < off.length; i++) {
        off[i] = Math.abs(rows[i][2] - value(c, rows[i][0], rows[i][1]));
      }
      double[] sorted = off.clone();
      Arrays.sort(sorted);
      double scale = Math.max(1e-4, 1.5 * sorted[sorted.length / 2]);
      for (int i = 0; i < off.length; i++) {
        double r = off[i] / scale;
        weight[i] = 1 / (1 + r * r);
      }
    }
    return c;
  }

  private static double[] solve(double[][] rows, double[] weight) {
    double[][] m = new double[TERMS][TERMS];
    double[] right = new double[TERMS];
    for (int i = 0; i < rows.length; i++) {
      double[] f = terms(rows[i][0], rows[i][1]);
      for (int r = 0; r < TERMS; r++) {
        for (int s = 0; s < TERMS; s++) {
          m[r][s] += weight[i] * f[r] * f[s];
        }
        right[r] += weight[i] * f[r] * rows[i][2];
      }
    }
    for (int r = 0; r < TERMS; r++) {
      m[r][r] += 1e-9;
    }
    return new LUDecomposition(new Array2DRowRealMatrix(m, false))
        .getSolver()
        .solve(new ArrayRealVector(right, false))
        .toArray();
  }

  private static double[] terms(double u, double v) {
    return new double[] {1, u, v, u * u, u * v, v * v};
  }

  private static double value(double[] c, double u, double v) {
    double[] f = terms(u, v);
    double sum = 0;
    for (int i = 0; i < TERMS; i++) {
      sum += c[i] * f[i];
    }
    return sum;
  }

  /** How much darker the darkest place of the fitted light is than the brightest, 0 to 1. */
  double fallOff() {
    return 1 - Math.exp(low - high);
  }

  /** Light at a place over the brightest light. */
  double relative(double u, double v) {
    return Math.exp(value(c, u, v) - high);
  }
}
