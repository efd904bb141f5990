package org.diesurvey.calibration.micrometer;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.diesurvey.calibration.micrometer.Lattice.Mark;

/** Places of the division lines to a small part of a pixel. */
final class LineCentres {
  /** Rows of one piece of a line. */
  private static final int PIECE_PX = 12;

  private static final int MOST_PIECES = 12;

  /** Depth of a piece over that of the line's other pieces; else dirt covers it. */
  private static final double SHALLOW = 0.6;

  private static final double DEEP = 1.6;

  private final UprightView view;
  private final Lattice lattice;
  private final double halfWindow;
  private final double coreTop;
  private final double coreBottom;
  private final LineShape shape;

  /**
   * A line measured.
   *
   * @param mark the stroke and its number
   * @param u place, px
   * @param depth grey
   */
  record Centre(Mark mark, double u, double depth) {}

  LineCentres(UprightView view, Lattice lattice) {
    this.view = view;
    this.lattice = lattice;
    double width =
        LatticeSearch.median(
            lattice.marks().stream().mapToDouble(m -> m.stroke().width()).toArray());
    halfWindow = Math.max(2, Math.min(0.48 * lattice.stepPx(), 1.1 * width + 4));
    double[] tops = lattice.marks().stream().mapToDouble(m -> m.stroke().top()).sorted().toArray();
    double[] bottoms =
        lattice.marks().stream().mapToDouble(m -> m.stroke().bottom()).sorted().toArray();
    int n = tops.length;
    coreTop = tops[(int) (0.75 * (n - 1))];
    coreBottom = bottoms[(int) Math.ceil(0.25 * (n - 1))];
    shape = shape(width);
  }

  /** Upper end of the rows that nearly all lines share. */
  double coreTop() {
    return coreTop;
  }

  /** Lower end of the rows that nearly all lines share. */
  double coreBottom() {
    return coreBottom;
  }

  LineShape shape() {
    return shape;
  }

  /** All lines that can be measured. */
  List<Centre> all() {
    List<Centre> centres = new ArrayList<>();
    for (Mark m : lattice.marks()) {
      centre(m).ifPresent(centres::add);
    }
    return centres;
  }

  /** Rows of a stroke that are used: those of the core, away from the line's ends. */
  private int[] rows(Stroke s) {
    double top = Math.max(s.top(), coreTop);
    double bottom = Math.min(s.bottom(), coreBottom);
    if (bottom - top < 8) {
      top = s.top();
      bottom = s.bottom();
    }
    double margin = Math.min(0.15 * (bottom - top), s.width());
    return new int[] {(int) Math.ceil(top + margin), (int) Math.floor(bottom - margin)};
  }

  private LineShape shape(double width) {
    double[] sum = new double[2 * (int) Math.ceil(4 * halfWindow) + 1];
    double[] count = new double[sum.length];
    int middle = sum.length / 2;
    for (Mark m : lattice.marks()) {
      int[] rows = rows(m.stroke());
      double u = m.stroke().at(0.5 * (rows[0] + rows[1]));
      int first = (int) Math.ceil(u - halfWindow - 0.5);
      int end = (int) Math.floor(u + halfWindow + 0.5);
      if (first < 0 || end > view.width() || rows[1] <= rows[0]) {
        continue;
      }
      double[] p = view.profile(rows[0], rows[1], first, end);
      double ground = Math.max(p[0], p[p.length - 1]);
      for (int i = 0; i < p.length; i++) {
        // Quarter pixels: the lines stand at all phases, so that the mean is finer than a pixel.
        int bin = middle + (int) Math.rint(4 * (first + i + 0.5 - u));
        if (bin >= 0 && bin < sum.length) {
          sum[bin] += ground - p[i];
          count[bin]++;
        }
      }
    }
    int n = (int) Arrays.stream(count).filter(c -> c > 0).count();
    double[] x = new double[n];
    double[] y = new double[n];
    int at = 0;
    for (int i = 0; i < sum.length; i++) {
      if (count[i] > 0) {
        x[at] = (i - middle) / 4.0;
        y[at++] = sum[i] / count[i];
      }
    }
    return LineShape.fit(x, y, width, lattice.stepPx());
  }

  private Optional<Centre> centre(Mark mark) {
    int[] rows = rows(mark.stroke());
    int length = rows[1] - rows[0];
    if (length < 2) {
      return Optional.empty();
    }
    int pieces = Math.max(1, Math.min(MOST_PIECES, length / PIECE_PX));
    List<double[]> found = new ArrayList<>();
    for (int i = 0; i < pieces; i++) {
      int v0 = rows[0] + i * length / pieces;
      int v1 = rows[0] + (i + 1) * length / pieces;
      double[] piece = piece(mark.stroke(), v0, v1);
      if (piece != null) {
        found.add(piece);
      }
    }
    if (found.size() < Math.max(1, (pieces + 1) / 3)) {
      return Optional.empty();
    }
    double depth = LatticeSearch.median(found.stream().mapToDouble(p -> p[1]).toArray());
    double typical = LatticeSearch.median(found.stream().mapToDouble(p -> p[0]).toArray());
    double spread =
        LatticeSearch.median(found.stream().mapToDouble(p -> Math.abs(p[0] - typical)).toArray());
    double limit = 0.03 + 4 * 1.4826 * spread;
    double[] kept =
        found.stream()
            .filter(p -> p[1] >= SHALLOW * depth && p[1] <= DEEP * depth)
            .mapToDouble(p -> p[0])
            .filter(u -> Math.abs(u - typical) <= limit)
            .toArray();
    return kept.length == 0
        ? Optional.empty()
        : Optional.of(new Centre(mark, Arrays.stream(kept).average().orElseThrow(), depth));
  }

  /**
   * Centre and depth of a line in rows v0 to v1: ground, its slope, depth and shift by least
   * squares, linearised in the shift and repeated. Null where the photo ends or nothing fits.
   */
  private double[] piece(Stroke s, int v0, int v1) {
    double vMiddle = 0.5 * (v0 + v1);
    double u = s.at(vMiddle);
    double start = u;
    double depth = 0;
    for (int round = 0; round < 6; round++) {
      int first = (int) Math.ceil(u - halfWindow - 0.5);
      int end = (int) Math.floor(u + halfWindow + 0.5);
      if (first < 0
          || end > view.width()
          || !view.inside(first, v0)
          || !view.inside(end, v0)
          || !view.inside(first, v1)
          || !view.inside(end, v1)) {
        return null;
      }
      double[] p = view.profile(v0, v1, first, end);
      double[] fit = fit(p, first - u);
      if (fit == null || !(fit[0] > 0)) {
        return null;
      }
      depth = fit[0];
      double shift = Math.max(-0.5 * s.width() - 0.5, Math.min(0.5 * s.width() + 0.5, fit[1]));
      u += shift;
      if (Math.abs(u - start) > Math.min(0.3 * lattice.stepPx(), s.width() + 1)) {
        return null;
      }
      if (Math.abs(shift) < 1e-4) {
        break;
      }
    }
    return new double[] {u, depth};
  }

  /** Depth and shift from samples at offset + 0.5, + 1.5, ... from the assumed centre. */
  private double[] fit(double[] p, double offset) {
    boolean tilted = p.length >= 7;
    int k = tilted ? 4 : 3;
    double[][] a = new double[k][k + 1];
    double step = lattice.stepPx();
    for (int i = 0; i < p.length; i++) {
      double x = offset + i + 0.5;
      double g = -shape.value(x) - shape.value(x - step) - shape.value(x + step);
      double dg = shape.slope(x) + shape.slope(x - step) + shape.slope(x + step);
      double[] row = tilted ? new double[] {1, g, dg, x} : new double[] {1, g, dg};
      for (int r = 0; r < k; r++) {
        for (int c = 0; c < k; c++) {
          a[r][c] += row[r] * row[c];
        }
        a[r][k] += row[r] * p[i];
      }
    }
    double[] x = LeastSquares.solve(a);
    return x == null ? null : new double[] {x[1], x[2] / x[1]};
  }
}
