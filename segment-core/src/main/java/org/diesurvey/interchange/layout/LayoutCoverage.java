package org.diesurvey.interchange.layout;

import java.util.Arrays;

/**
 * The share of every pixel that the union of many shapes covers, exactly: rows of pixels are cut at
 * all corners and crossings into slabs in which no edges meet, and there the covered trapezoids are
 * summed. Overlaps count once.
 */
final class LayoutCoverage {
  /** Differences of a pixel that rounding makes. */
  private static final double TINY = 1e-9;

  /** How often a slab is halved at crossings before the rest is taken as it is. */
  private static final int DEEPEST = 24;

  /** Places in a pixel that sorting tells apart. */
  private static final double KEYS_PER_PX = 1024;

  /** Receives the rows from top to bottom. */
  interface Rows {
    /**
     * @param share covered share of each pixel, 0 to 1; used again for the next row
     */
    void row(int y, double[] share);
  }

  private final LayoutEdges edges;
  private final int width;
  private final double[] sums;
  private int[] active = new int[64];
  private int count;
  private int[] order = new int[64];
  private double[] middle = new double[64];
  private double[] upper = new double[64];
  private double[] lower = new double[64];

  private LayoutCoverage(LayoutEdges edges, int width) {
    this.edges = edges;
    this.width = width;
    this.sums = new double[width + 1];
  }

  static void rows(LayoutEdges edges, int width, int height, Rows target) {
    LayoutCoverage c = new LayoutCoverage(edges, width);
    int[] first = new int[height + 1];
    int n = edges.count();
    for (int e = 0; e < n; e++) {
      int row = startRow(edges, e, height);
      if (row >= 0) {
        first[row + 1]++;
      }
    }
    for (int r = 0; r < height; r++) {
      first[r + 1] += first[r];
    }
    int[] sorted = new int[first[height]];
    int[] at = Arrays.copyOf(first, height);
    for (int e = 0; e < n; e++) {
      int row = startRow(edges, e, height);
      if (row >= 0) {
        sorted[at[row]++] = e;
      }
    }
    double[] share = new double[width];
    for (int y = 0; y < height; y++) {
      for (int i = first[y]; i < first[y + 1]; i++) {
        c.activate(sorted[i]);
      }
      c.row(y, share);
      target.row(y, share);
    }
  }

  /** First row of pixels that an edge touches; -1 where it touches none. */
  private static int startRow(LayoutEdges edges, int e, int height) {
    return edges.bottom(e) <= 0 || edges.top(e) >= height
        ? -1
        : (int) Math.max(0, Math.floor(edges.top(e)));
  }

  private void activate(int edge) {
    if (count == active.length) {
      active = Arrays.copyOf(active, 2 * count);
      order = new int[2 * count];
      middle = new double[2 * count];
      upper = new double[2 * count];
      lower = new double[2 * count];
    }
    active[count++] = edge;
  }

  private void row(int y, double[] share) {
    int kept = 0;
    double[] cuts = new double[2 * count + 2];
    int n = 0;
    cuts[n++] = y;
    cuts[n++] = y + 1.0;
    for (int i = 0; i < count; i++) {
      int e = active[i];
      if (edges.bottom(e) <= y) {
        continue;
      }
      active[kept++] = e;
      for (double v : new double[] {edges.top(e), edges.bottom(e)}) {
        if (v > y && v < y + 1) {
          cuts[n++] = v;
        }
      }
    }
    count = kept;
    sortActive(y);
    Arrays.fill(sums, 0);
    if (count > 0) {
      Arrays.sort(cuts, 0, n);
      double from = cuts[0];
      for (int i = 1; i < n; i++) {
        if (cuts[i] - from > TINY) {
          slab(from, cuts[i], 0);
          from = cuts[i];
        }
      }
    }
    double sum = 0;
    for (int x = 0; x < width; x++) {
      sum += sums[x];
      share[x] = Math.max(0, Math.min(1, sum));
    }
  }

  /** Puts the active edges nearly in the order in which they are met along the row. */
  private void sortActive(int y) {
    long[] keys = new long[count];
    for (int i = 0; i < count; i++) {
      int e = active[i];
      double mid = (Math.max(y, edges.top(e)) + Math.min(y + 1.0, edges.bottom(e))) / 2;
      double x = Math.max(-1, Math.min(width + 1.0, edges.x(e, mid)));
      keys[i] = (long) (x * KEYS_PER_PX) << 32 | e;
    }
    Arrays.sort(keys);
    for (int i = 0; i < count; i++) {
      active[i] = (int) keys[i];
    }
  }

  /** Adds what is covered between two heights that no edge ends between. */
  private void slab(double from, double to, int depth) {
    int n = 0;
    double mid = (from + to) / 2;
    for (int i = 0; i < count; i++) {
      int e = active[i];
      if (edges.top(e) < mid && edges.bottom(e) > mid) {
        double x = edges.x(e, mid);
        // The edges are nearly in order from the slab above.
        int k = n++;
        while (k > 0 && middle[k - 1] > x) {
          middle[k] = middle[k - 1];
          order[k] = order[k - 1];
          k--;
        }
        middle[k] = x;
        order[k] = e;
      }
    }
    for (int k = 0; k < n; k++) {
      upper[k] = edges.x(order[k], from);
      lower[k] = edges.x(order[k], to);
    }
    double cross = crossing(n, from, to);
    if (cross > from + TINY && cross < to - TINY && depth < DEEPEST) {
      slab(from, cross, depth + 1);
      slab(cross, to, depth + 1);
      return;
    }
    int winding = 0;
    for (int k = 0; k < n; k++) {
      int before = winding;
      winding += edges.winds(order[k]);
      if (before == 0 || winding == 0) {
        add(upper[k], lower[k], to - from, before == 0 ? 1 : -1);
      }
    }
  }

  /** Height at which two neighbouring edges of a slab cross; NaN where none do. */
  private double crossing(int n, double from, double to) {
    for (int k = 1; k < n; k++) {
      double above = upper[k] - upper[k - 1];
      double below = lower[k] - lower[k - 1];
      if (above < -TINY || below < -TINY) {
        return from + (to - from) * above / (above - below);
      }
    }
    return Double.NaN;
  }

  /** Adds (or takes away) all that lies right of a piece of an edge. */
  private void add(double xa, double xb, double height, int sign) {
    double left = Math.min(xa, xb);
    double right = Math.max(xa, xb);
    if (right - left < TINY) {
      piece((left + right) / 2, sign * height);
      return;
    }
    double perPx = sign * height / (right - left);
    if (left < 0) {
      sums[0] += perPx * (Math.min(0, right) - left);
      left = 0;
    }
    right = Math.min(right, width);
    double x = left;
    while (x < right) {
      double end = Math.min(right, Math.floor(x) + 1);
      piece((x + end) / 2, perPx * (end - x));
      x = end;
    }
  }

  private void piece(double x, double height) {
    if (x <= 0) {
      sums[0] += height;
    } else if (x < width) {
      int i = (int) x;
      sums[i] += height * (i + 1 - x);
      sums[i + 1] += height * (x - i);
    }
  }
}
