package org.diesurvey.interchange.layout;

import java.util.Arrays;

/**
 * A line with a width as a closed outline. Its corners are mitred; where a line turns so far back
 * that the mitre would stand out by more than twice the half width, it is cut off.
 */
final class LayoutPath {
  private static final int ROUND = 1;
  private static final int SQUARE = 2;
  private static final int STATED = 4;

  /** Corners of a round end. */
  private static final int ROUND_CORNERS = 16;

  /** Cosine between the sides' normals below which a mitre is cut. */
  private static final double LEAST_COSINE = -0.5;

  private final double[] xs;
  private final double[] ys;

  private LayoutPath(double[] xs, double[] ys) {
    this.xs = xs;
    this.ys = ys;
  }

  /**
   * @param half half the width, above 0
   * @param ends 0 flush, 1 round, 2 longer by half the width, 4 longer as stated
   * @param begin how far the first end is longer, with ends of kind 4
   * @param end how far the last end is longer
   */
  static LayoutPath of(double[] xs, double[] ys, double half, int ends, double begin, double end) {
    double[][] line = distinct(xs, ys);
    int n = line[0].length;
    if (n < 2) {
      return n == 1 && ends == SQUARE
          ? square(line[0][0], line[1][0], half)
          : new LayoutPath(new double[0], new double[0]);
    }
    double first = ends == SQUARE ? half : ends == STATED ? begin : 0;
    double last = ends == SQUARE ? half : ends == STATED ? end : 0;
    lengthen(line, 0, 1, first);
    lengthen(line, n - 1, n - 2, last);
    Ring ring = new Ring();
    side(line, half, ring);
    if (ends == ROUND) {
      cap(line, n - 2, n - 1, half, ring);
    }
    double[][] back = {reversed(line[0]), reversed(line[1])};
    side(back, half, ring);
    if (ends == ROUND) {
      cap(back, n - 2, n - 1, half, ring);
    }
    return new LayoutPath(Arrays.copyOf(ring.x, ring.count), Arrays.copyOf(ring.y, ring.count));
  }

  /** Corners along x; not to be changed. */
  double[] xs() {
    return xs;
  }

  /** Corners along y, as many. */
  double[] ys() {
    return ys;
  }

  private static final class Ring {
    private double[] x = new double[16];
    private double[] y = new double[16];
    private int count;

    void add(double px, double py) {
      if (count == x.length) {
        x = Arrays.copyOf(x, 2 * count);
        y = Arrays.copyOf(y, 2 * count);
      }
      x[count] = px;
      y[count++] = py;
    }
  }

  private static LayoutPath square(double x, double y, double half) {
    return new LayoutPath(
        new double[] {x - half, x + half, x + half, x - half},
        new double[] {y - half, y - half, y + half, y + half});
  }

  private static double[][] distinct(double[] xs, double[] ys) {
    double[] x = new double[xs.length];
    double[] y = new double[xs.length];
    int n = 0;
    for (int i = 0; i < xs.length; i++) {
      if (n == 0 || xs[i] != x[n - 1] || ys[i] != y[n - 1]) {
        x[n] = xs[i];
        y[n++] = ys[i];
      }
    }
    return new double[][] {Arrays.copyOf(x, n), Arrays.copyOf(y, n)};
  }

  private static double[] reversed(double[] v) {
    double[] out = new double[v.length];
    for (int i = 0; i < v.length; i++) {
      out[i] = v[v.length - 1 - i];
    }
    return out;
  }

  private static void lengthen(double[][] line, int at, int next, double by) {
    double dx = line[0][at] - line[0][next];
    double dy = line[1][at] - line[1][next];
    double length = Math.hypot(dx, dy);
    line[0][at] += by * dx / length;
    line[1][at] += by * dy / length;
  }

  /** The side to the left of a line, from its first point to its last. */
  private static void side(double[][] line, double half, Ring ring) {
    double[] x = line[0];
    double[] y = line[1];
    int n = x.length;
    for (int i = 0; i < n; i++) {
      double[] before = normal(line, Math.max(0, i - 1));
      double[] after = normal(line, Math.min(n - 2, i));
      double cosine = before[0] * after[0] + before[1] * after[1];
      if (cosine < LEAST_COSINE) {
        ring.add(x[i] + half * before[0], y[i] + half * before[1]);
        ring.add(x[i] + half * after[0], y[i] + half * after[1]);
      } else {
        double reach = half / (1 + cosine);
        ring.add(x[i] + reach * (before[0] + after[0]), y[i] + reach * (before[1] + after[1]));
      }
    }
  }

  private static double[] normal(double[][] line, int segment) {
    double dx = line[0][segment + 1] - line[0][segment];
    double dy = line[1][segment + 1] - line[1][segment];
    double length = Math.hypot(dx, dy);
    return new double[] {-dy / length, dx / length};
  }

  private static void cap(double[][] line, int from, int to, double half, Ring ring) {
    double[] n = normal(line, from);
    for (int k = 1; k < ROUND_CORNERS; k++) {
      double turn = -Math.PI * k / ROUND_CORNERS;
      double cos = Math.cos(turn);
      double sin = Math.sin(turn);
      ring.add(
          line[0][to] + half * (cos * n[0] - sin * n[1]),
          line[1][to] + half * (sin * n[0] + cos * n[1]));
    }
  }
}
