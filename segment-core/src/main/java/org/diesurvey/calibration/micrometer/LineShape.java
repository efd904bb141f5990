package org.diesurvey.calibration.micrometer;

import org.apache.commons.math3.special.Erf;

/**
 * The profile across a line: a box of one width under a Gaussian blur, depth 1. Symmetric, so that
 * a shape that is not quite right does not shift a fitted centre.
 *
 * @param width of the box, px
 * @param blur standard deviation, px
 */
record LineShape(double width, double blur) {
  double value(double x) {
    double s = blur * Math.sqrt(2);
    return 0.5 * (Erf.erf((x + width / 2) / s) - Erf.erf((x - width / 2) / s));
  }

  /** Derivative of {@link #value}. */
  double slope(double x) {
    return density(x + width / 2) - density(x - width / 2);
  }

  private double density(double x) {
    return Math.exp(-x * x / (2 * blur * blur)) / (blur * Math.sqrt(2 * Math.PI));
  }

  /**
   * The shape that fits a mean profile best, by least squares over a grid of widths and blurs.
   *
   * @param offsets of the samples from the line's middle, px
   * @param values grey of the samples
   * @param halfDepthWidth width at half depth, px
   * @param stepPx distance of the neighbouring lines
   */
  static LineShape fit(double[] offsets, double[] values, double halfDepthWidth, double stepPx) {
    LineShape best = new LineShape(halfDepthWidth, Math.max(0.5, 0.25 * halfDepthWidth));
    double least = Double.MAX_VALUE;
    for (int i = 0; i < 10; i++) {
      for (int j = 0; j < 10; j++) {
        double w = halfDepthWidth * (0.55 + 0.06 * i);
        double b = Math.max(0.35, halfDepthWidth * (0.06 + 0.06 * j));
        LineShape shape = new LineShape(w, b);
        double misfit = shape.misfit(offsets, values, stepPx);
        if (misfit < least) {
          least = misfit;
          best = shape;
        }
      }
    }
    return best;
  }

  /** Sum of squares left by the best ground and depth. */
  private double misfit(double[] x, double[] y, double stepPx) {
    double n = x.length;
    double sg = 0;
    double sy = 0;
    double sgg = 0;
    double sgy = 0;
    double syy = 0;
    for (int i = 0; i < x.length; i++) {
      double g = value(x[i]) + value(x[i] - stepPx) + value(x[i] + stepPx);
      sg += g;
      sy += y[i];
      sgg += g * g;
      sgy += g * y[i];
      syy += y[i] * y[i];
    }
    double vg = sgg - sg * sg / n;
    double cov = sgy - sg * sy / n;
    return syy - sy * sy / n - (vg > 0 ? cov * cov / vg : 0);
  }
}
