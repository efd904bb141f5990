package org.diesurvey.comparison.tiles;

import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.RealMatrix;

/** Means and mean products of figures over some tiles. */
public final class TileMoments {
  /** Variance of a figure that always counts. */
  private static final double LEAST_SPREAD = 0.01;

  private TileMoments() {}

  static RealMatrix ridged(RealMatrix m, double by) {
    for (int k = 0; k < m.getRowDimension(); k++) {
      m.addToEntry(k, k, by);
    }
    return m;
  }

  static double[] mean(double[][] x, boolean[] of) {
    double[] out = new double[x[0].length];
    int n = 0;
    for (int i = 0; i < x.length; i++) {
      if (of[i]) {
        n++;
        for (int k = 0; k < out.length; k++) {
          out[k] += x[i][k];
        }
      }
    }
    for (int k = 0; k < out.length; k++) {
      out[k] /= Math.max(1, n);
    }
    return out;
  }

  /** Mean products of deviations. */
  static RealMatrix products(
      double[][] x, double[] meanX, double[][] y, double[] meanY, boolean[] of) {
    double[][] out = new double[meanX.length][meanY.length];
    int n = 0;
    for (int i = 0; i < x.length; i++) {
      if (of[i]) {
        n++;
        for (int k = 0; k < meanX.length; k++) {
          double v = x[i][k] - meanX[k];
          for (int l = 0; l < meanY.length; l++) {
            out[k][l] += v * (y[i][l] - meanY[l]);
          }
        }
      }
    }
    RealMatrix m = new Array2DRowRealMatrix(out, false);
    return m.scalarMultiply(1.0 / Math.max(1, n));
  }

  /** How unlike the same ground is in two pictures: differences of means over their spread. */
  public static double distance(double[][] x, double[][] y, boolean[] of) {
    double[] meanX = mean(x, of);
    double[] meanY = mean(y, of);
    RealMatrix spread = products(x, meanX, x, meanX, of);
    double sum = 0;
    for (int k = 0; k < meanX.length; k++) {
      double d = meanX[k] - meanY[k];
      sum += d * d / (spread.getEntry(k, k) + LEAST_SPREAD);
    }
    return Math.sqrt(sum / meanX.length);
  }

  /** How unlike two grounds of one picture look: differences of figures over their spread. */
  public static double unlike(double[][] figures, boolean[] p, boolean[] q) {
    double[] meanP = mean(figures, p);
    double[] meanQ = mean(figures, q);
    RealMatrix spreadP = products(figures, meanP, figures, meanP, p);
    RealMatrix spreadQ = products(figures, meanQ, figures, meanQ, q);
    double sum = 0;
    for (int k = 0; k < meanP.length; k++) {
      double d = meanP[k] - meanQ[k];
      sum += d * d / (0.5 * (spreadP.getEntry(k, k) + spreadQ.getEntry(k, k)) + LEAST_SPREAD);
    }
    return Math.sqrt(sum / meanP.length);
  }
}
