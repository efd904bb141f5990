package org.diesurvey.preparation;

import java.util.Arrays;
import java.util.Locale;
import org.diesurvey.preparation.edges.EdgeLine;

/**
 * Slow fall-off of the light over the die: a second-order polynomial of the place, fitted robustly
 * to the logarithm of the grey level, so that blocks of different brightness pull little.
 *
 * @param c0 coefficient of 1
 * @param c1 coefficient of u, which runs from -1 to 1 over the die's width
 * @param c2 coefficient of v, which runs from -1 to 1 over the die's height
 * @param c3 coefficient of u2
 * @param c4 coefficient of u v
 * @param c5 coefficient of v2
 */
record Illumination(double c0, double c1, double c2, double c3, double c4, double c5) {
  /** Even light. */
  static final Illumination EVEN = new Illumination(0, 0, 0, 0, 0, 0);

  /** Gain that brings a place to the die's middle brightness, within 1/3 to 3. */
  double gain(double u, double v) {
    double log = c1 * u + c2 * v + c3 * u * u + c4 * u * v + c5 * v * v;
    return Math.exp(-Math.max(-1.1, Math.min(1.1, log)));
  }

  /** Brightest over darkest place of the fitted light on the die, at least 1. */
  double span() {
    double low = Double.MAX_VALUE;
    double high = 0;
    for (int i = -4; i <= 4; i++) {
      for (int j = -4; j <= 4; j++) {
        double g = gain(i / 4.0, j / 4.0);
        low = Math.min(low, g);
        high = Math.max(high, g);
      }
    }
    return high / low;
  }

  /** What is done with it. */
  PreparationStep step() {
    return PreparationStep.of(
            PreparationStep.Kind.LIGHT,
            String.format(
                Locale.ROOT,
                "Light fall-off taken out as a second-order surface; brightest over darkest %.2f.",
                span()))
        .with("brightest_over_darkest", span());
  }

  /**
   * Fits by iteratively reweighted least squares with Cauchy weights (Holland and Welsch 1977, from
   * memory).
   *
   * @param u places, -1 to 1
   * @param v places, -1 to 1
   * @param grey levels above 0
   */
  static Illumination fit(double[] u, double[] v, double[] grey) {
    int n = grey.length;
    if (n < 24) {
      return EVEN;
    }
    double[] z = new double[n];
    double[] weight = new double[n];
    Arrays.fill(weight, 1);
    for (int i = 0; i < n; i++) {
      z[i] = Math.log(Math.max(1e-3, grey[i]));
    }
    double[] c = new double[6];
    for (int pass = 0; pass < 8; pass++) {
      c = solve(u, v, z, weight);
      double[] abs = new double[n];
      for (int i = 0; i < n; i++) {
        abs[i] = Math.abs(z[i] - value(c, u[i], v[i]));
      }
      double scale = Math.max(1e-4, 1.5 * EdgeLine.median(abs));
      for (int i = 0; i < n; i++) {
        double r = abs[i] / scale;
        weight[i] = 1 / (1 + r * r);
      }
    }
    return new Illumination(c[0], c[1], c[2], c[3], c[4], c[5]);
  }

  private static double value(double[] c, double u, double v) {
    return c[0] + c[1] * u + c[2] * v + c[3] * u * u + c[4] * u * v + c[5] * v * v;
  }

  private static double[] solve(double[] u, double[] v, double[] z, double[] weight) {
    double[][] m = new double[6][7];
    double[] f = new double[6];
    for (int i = 0; i < z.length; i++) {
      f[0] = 1;
      f[1] = u[i];
      f[2] = v[i];
      f[3] = u[i] * u[i];
      f[4] = u[i] * v[i];
      f[5] = v[i] * v[i];
      for (int r = 0; r < 6; r++) {
        for (int s = 0; s < 6; s++) {
          m[r][s] += weight[i] * f[r] * f[s];
        }
        m[r][6] += weight[i] * f[r] * z[i];
      }
    }
    for (int p = 0; p < 6; p++) {
      m[p][p] += 1e-9;
      for (int r = p + 1; r < 6; r++) {
        double q = m[r][p] / m[p][p];
        for (int s = p; s < 7; s++) {
          m[r][s] -= q * m[p][s];
        }
      }
    }
    double[] c = new double[6];
    for (int p = 5; p >= 0; p--) {
      double sum = m[p][6];
      for (int s = p + 1; s < 6; s++) {
        sum -= m[p][s] * c[s];
      }
      c[p] = sum / m[p][p];
    }
    return c;
  }
}
