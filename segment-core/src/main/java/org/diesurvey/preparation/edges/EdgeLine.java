package org.diesurvey.preparation.edges;

import java.util.Arrays;
import java.util.List;

/**
 * A straight line through edge points, fitted robustly: the offset across a side as a linear
 * function of the place along it.
 *
 * @param offset at place 0, px
 * @param slope px per px
 * @param inlierShare share of points within the tolerance, 0 to 1
 * @param residualPx standard deviation of the inliers' residuals, px
 * @param inliers number of points within the tolerance
 */
public record EdgeLine(
    double offset, double slope, double inlierShare, double residualPx, int inliers) {

  /**
   * Fits by trying all pairs of well separated points (a deterministic form of RANSAC; Fischler and
   * Bolles 1981), then least squares on the inliers, twice.
   *
   * @param points pairs of (place along, offset across), px
   * @param sampled how many places were looked at, at least the number of points
   * @param tolerancePx half width of the inlier band
   */
  static EdgeLine fit(List<double[]> points, int sampled, double tolerancePx) {
    int n = points.size();
    if (n < 8) {
      return new EdgeLine(0, 0, 0, 0, 0);
    }
    int best = -1;
    double bestOffset = 0;
    double bestSlope = 0;
    for (int i = 0; i < n; i++) {
      for (int j = i + n / 3; j < n; j += Math.max(1, n / 24)) {
        double[] p = points.get(i);
        double[] q = points.get(j);
        double slope = (q[1] - p[1]) / (q[0] - p[0]);
        double offset = p[1] - slope * p[0];
        int count = 0;
        for (double[] r : points) {
          if (Math.abs(r[1] - offset - slope * r[0]) <= tolerancePx) {
            count++;
          }
        }
        if (count > best) {
          best = count;
          bestOffset = offset;
          bestSlope = slope;
        }
      }
    }
    double[] line = {bestOffset, bestSlope};
    for (int pass = 0; pass < 2; pass++) {
      line = leastSquares(points, line, tolerancePx);
    }
    double ss = 0;
    int inliers = 0;
    for (double[] r : points) {
      double e = r[1] - line[0] - line[1] * r[0];
      if (Math.abs(e) <= tolerancePx) {
        ss += e * e;
        inliers++;
      }
    }
    double residual = inliers > 2 ? Math.sqrt(ss / (inliers - 2)) : tolerancePx;
    return new EdgeLine(line[0], line[1], inliers / (double) sampled, residual, inliers);
  }

  private static double[] leastSquares(List<double[]> points, double[] line, double tolerance) {
    double n = 0;
    double sx = 0;
    double sy = 0;
    double sxx = 0;
    double sxy = 0;
    for (double[] r : points) {
      if (Math.abs(r[1] - line[0] - line[1] * r[0]) <= tolerance) {
        n++;
        sx += r[0];
        sy += r[1];
        sxx += r[0] * r[0];
        sxy += r[0] * r[1];
      }
    }
    double det = n * sxx - sx * sx;
    if (n < 3 || det <= 0) {
      return line;
    }
    double slope = (n * sxy - sx * sy) / det;
    return new double[] {(sy - slope * sx) / n, slope};
  }

  /** Middle value of the numbers; the lower of the two middle ones for an even count. */
  public static double median(double[] values) {
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    return sorted[(sorted.length - 1) / 2];
  }
}
