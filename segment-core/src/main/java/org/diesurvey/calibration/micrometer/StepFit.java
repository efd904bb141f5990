package org.diesurvey.calibration.micrometer;

import java.util.Arrays;
import org.apache.commons.math3.distribution.FDistribution;

/**
 * Pixels per division from the places of numbered lines: a straight line by least squares, lines
 * far off it left out, its uncertainty from the scatter that remains.
 *
 * <p>u(step) = s / sqrt(sum (k - mean k)^2) with s^2 = sum r^2 / (n - 2): the standard deviation of
 * a fitted slope, as in JCGM 100:2008 (GUM) H.3 (numbering from memory). Neighbouring residuals
 * that go together (lag-1 correlation r above 0) carry less than n lines' worth, so u grows by
 * sqrt((1 + r) / (1 - r)).
 */
final class StepFit {
  /** A line further off than this many robust standard deviations is left out. */
  private static final double OUTLIER = 4;

  /** Never left out below this distance, px: what interpolation and sampling alone may do. */
  private static final double ALWAYS_KEPT_PX = 0.05;

  /** Fewest lines for a look at distortion. */
  private static final int LINES_FOR_BEND = 9;

  private static final double BEND_SIGNIFICANCE = 0.001;

  final double stepPx;
  final double stepUncertaintyPx;
  final double degreesOfFreedom;
  final double scatterPx;
  final boolean[] used;
  final double[] residualsPx;
  final int lines;

  /** Relative change of the step over the scale, from its least to its greatest value. */
  final double bend;

  /** Whether the bend is more than chance. */
  final boolean bent;

  /** Residuals of the bent curve at each line, px: what distortion alone would leave. */
  final double[] curvePx;

  StepFit(double[] index, double[] u) {
    int n = u.length;
    used = new boolean[n];
    Arrays.fill(used, true);
    double[] line = LeastSquares.polynomial(index, u, 1);
    for (int round = 0; round < 5; round++) {
      line = LeastSquares.polynomial(kept(index), kept(u), 1);
      double[] off = new double[n];
      for (int i = 0; i < n; i++) {
        off[i] = Math.abs(u[i] - LeastSquares.value(line, index[i]));
      }
      double limit = Math.max(ALWAYS_KEPT_PX, OUTLIER * 1.4826 * LatticeSearch.median(kept(off)));
      boolean changed = false;
      for (int i = 0; i < n; i++) {
        changed |= used[i] != (off[i] <= limit);
        used[i] = off[i] <= limit;
      }
      if (!changed) {
        break;
      }
    }
    double[] k = kept(index);
    double[] place = kept(u);
    lines = k.length;
    line = LeastSquares.polynomial(k, place, 1);
    stepPx = line[1];
    residualsPx = new double[n];
    for (int i = 0; i < n; i++) {
      residualsPx[i] = u[i] - LeastSquares.value(line, index[i]);
    }
    double[] r = kept(residualsPx);
    double squares = Arrays.stream(r).map(x -> x * x).sum();
    double mean = Arrays.stream(k).average().orElse(0);
    double spread = Arrays.stream(k).map(x -> (x - mean) * (x - mean)).sum();
    scatterPx = Math.sqrt(squares / Math.max(1, lines - 2));
    double together = Math.max(0, Math.min(0.9, correlation(r)));
    double fewer = (1 + together) / (1 - together);
    stepUncertaintyPx = scatterPx * Math.sqrt(fewer / spread);
    degreesOfFreedom = Math.max(1, (lines - 2) / fewer);
    curvePx = new double[n];
    double[] bendAndSign = bend(k, place, r, index);
    bend = bendAndSign[0];
    bent = bendAndSign[1] > 0;
  }

  private double[] kept(double[] values) {
    int n = 0;
    double[] out = new double[values.length];
    for (int i = 0; i < values.length; i++) {
      if (used[i]) {
        out[n++] = values[i];
      }
    }
    return Arrays.copyOf(out, n);
  }

  private static double correlation(double[] r) {
    double products = 0;
    double squares = 0;
    for (int i = 0; i < r.length; i++) {
      squares += r[i] * r[i];
      products += i > 0 ? r[i] * r[i - 1] : 0;
    }
    return squares > 0 && r.length > 4 ? products / squares : 0;
  }

  /** A cubic in place of the straight line: does it explain more than chance (F test)? */
  private double[] bend(double[] k, double[] place, double[] r, double[] index) {
    int n = k.length;
    if (n < LINES_FOR_BEND) {
      return new double[] {0, 0};
    }
    double middle = 0.5 * (k[0] + k[n - 1]);
    double half = 0.5 * (k[n - 1] - k[0]);
    double[] x = Arrays.stream(k).map(v -> (v - middle) / half).toArray();
    double[] cubic = LeastSquares.polynomial(x, r, 3);
    if (cubic == null) {
      return new double[] {0, 0};
    }
    double before = 0;
    double after = 0;
    for (int i = 0; i < n; i++) {
      before += r[i] * r[i];
      after += Math.pow(r[i] - LeastSquares.value(cubic, x[i]), 2);
    }
    for (int i = 0; i < index.length; i++) {
      curvePx[i] = LeastSquares.value(cubic, (index[i] - middle) / half);
    }
    double f = (before - after) / 2 / Math.max(1e-30, after / (n - 4));
    double chance = 1 - new FDistribution(null, 2, n - 4).cumulativeProbability(Math.max(0, f));
    double least = Double.MAX_VALUE;
    double most = -Double.MAX_VALUE;
    for (int i = -10; i <= 10; i++) {
      double at = i / 10.0;
      double local = (cubic[1] + 2 * cubic[2] * at + 3 * cubic[3] * at * at) / (half * stepPx);
      least = Math.min(least, local);
      most = Math.max(most, local);
    }
    return new double[] {most - least, chance < BEND_SIGNIFICANCE ? 1 : 0};
  }
}
