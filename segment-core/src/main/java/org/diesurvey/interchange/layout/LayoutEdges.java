package org.diesurvey.interchange.layout;

import java.util.Arrays;

/**
 * Upright and slanted edges of many shapes, in pixels with y down, each from its upper end to its
 * lower one, with the direction in which its shape winds.
 */
final class LayoutEdges {
  private double[] x0 = new double[64];
  private double[] y0 = new double[64];
  private double[] x1 = new double[64];
  private double[] y1 = new double[64];
  private byte[] winds = new byte[64];
  private int count;

  /** Adds the outline of a shape, whichever way round it goes. */
  void add(double[] xs, double[] ys) {
    int n = xs.length;
    double area = 0;
    for (int i = 0; i < n; i++) {
      int k = (i + 1) % n;
      area += xs[i] * ys[k] - xs[k] * ys[i];
    }
    int round = area > 0 ? 1 : -1;
    for (int i = 0; i < n; i++) {
      int k = (i + 1) % n;
      if (ys[i] < ys[k]) {
        edge(xs[i], ys[i], xs[k], ys[k], round);
      } else if (ys[i] > ys[k]) {
        edge(xs[k], ys[k], xs[i], ys[i], -round);
      }
    }
  }

  private void edge(double ax, double ay, double bx, double by, int direction) {
    if (count == x0.length) {
      int size = count + count / 2;
      x0 = Arrays.copyOf(x0, size);
      y0 = Arrays.copyOf(y0, size);
      x1 = Arrays.copyOf(x1, size);
      y1 = Arrays.copyOf(y1, size);
      winds = Arrays.copyOf(winds, size);
    }
    x0[count] = ax;
    y0[count] = ay;
    x1[count] = bx;
    y1[count] = by;
    winds[count++] = (byte) direction;
  }

  int count() {
    return count;
  }

  double top(int edge) {
    return y0[edge];
  }

  double bottom(int edge) {
    return y1[edge];
  }

  int winds(int edge) {
    return winds[edge];
  }

  /** Where an edge is at a height between its ends. */
  double x(int edge, double y) {
    if (x0[edge] == x1[edge]) {
      return x0[edge];
    }
    double t = (y - y0[edge]) / (y1[edge] - y0[edge]);
    return x0[edge] + Math.max(0, Math.min(1, t)) * (x1[edge] - x0[edge]);
  }
}
