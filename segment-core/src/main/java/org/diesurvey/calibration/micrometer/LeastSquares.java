package org.diesurvey.calibration.micrometer;

/** Small systems of normal equations. */
final class LeastSquares {
  private LeastSquares() {}

  /**
   * Solves k equations by Gauss elimination with pivoting.
   *
   * @param a k rows of k coefficients and the right-hand side; overwritten
   * @return the solution, or null where the equations are not independent
   */
  static double[] solve(double[][] a) {
    int k = a.length;
    for (int c = 0; c < k; c++) {
      int pivot = c;
      for (int r = c + 1; r < k; r++) {
        pivot = Math.abs(a[r][c]) > Math.abs(a[pivot][c]) ? r : pivot;
      }
      double[] row = a[pivot];
      a[pivot] = a[c];
      a[c] = row;
      if (Math.abs(row[c]) < 1e-14) {
        return null;
      }
      for (int r = 0; r < k; r++) {
        if (r != c) {
          double f = a[r][c] / row[c];
          for (int j = c; j <= k; j++) {
            a[r][j] -= f * row[j];
          }
        }
      }
    }
    double[] x = new double[k];
    for (int c = 0; c < k; c++) {
      x[c] = a[c][k] / a[c][c];
    }
    return x;
  }

  /**
   * Coefficients of a polynomial through points, lowest power first; null where there are too few
   * different places.
   */
  static double[] polynomial(double[] x, double[] y, int degree) {
    double[][] a = new double[degree + 1][degree + 2];
    for (int i = 0; i < x.length; i++) {
      double xr = 1;
      for (int r = 0; r <= degree; r++) {
        double power = xr;
        for (int c = 0; c <= degree; c++) {
          a[r][c] += power;
          power *= x[i];
        }
        a[r][degree + 1] += xr * y[i];
        xr *= x[i];
      }
    }
    return solve(a);
  }

  static double value(double[] coefficients, double x) {
    double v = 0;
    for (int i = coefficients.length - 1; i >= 0; i--) {
      v = v * x + coefficients[i];
    }
    return v;
  }
}
