package org.diesurvey.comparison.registration;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.QRDecomposition;
import org.apache.commons.math3.linear.SingularMatrixException;
import org.diesurvey.raster.PlaneTransform;

/**
 * The affine map that most local matches agree on: random sample consensus (Fischler and Bolles
 * 1981) over similarities from two matches each, then least squares over those that agree. The
 * random draws have a fixed seed.
 *
 * @param map from expected to found places, px
 * @param agreeing matches within the tolerance of it
 * @param scatter standard deviation of an agreeing match along one axis, px, from the median
 *     distance
 */
public record RobustMap(PlaneTransform map, List<PatchMatch> agreeing, double scatter) {
  private static final int DRAWS = 400;

  /** Fewer matches than this carry no affine map. */
  private static final int LEAST_FOR_AFFINE = 12;

  static RobustMap fit(List<PatchMatch> matches, double tolerance) {
    PlaneTransform best = PlaneTransform.IDENTITY;
    int most = -1;
    SplittableRandom random = new SplittableRandom(1);
    int n = matches.size();
    for (int i = 0; i < DRAWS && n >= 2; i++) {
      PatchMatch p = matches.get(random.nextInt(n));
      PatchMatch q = matches.get(random.nextInt(n));
      PlaneTransform t = similarity(p, q);
      if (t == null) {
        continue;
      }
      int count = 0;
      for (PatchMatch m : matches) {
        if (distance(t, m) <= tolerance) {
          count++;
        }
      }
      if (count > most) {
        most = count;
        best = t;
      }
    }
    List<PatchMatch> in = within(best, matches, tolerance);
    for (int i = 0; i < 5 && in.size() >= 3; i++) {
      best = leastSquares(in, best);
      in = within(best, matches, tolerance);
    }
    return new RobustMap(best, in, scatter(best, in));
  }

  private static PlaneTransform similarity(PatchMatch p, PatchMatch q) {
    double ux = q.x() - p.x();
    double uy = q.y() - p.y();
    double square = ux * ux + uy * uy;
    if (square < 100) {
      return null;
    }
    double vx = ux + q.dx() - p.dx();
    double vy = uy + q.dy() - p.dy();
    double a = (ux * vx + uy * vy) / square;
    double d = (ux * vy - uy * vx) / square;
    if (Math.abs(a - 1) > 0.06 || Math.abs(d) > 0.06) {
      return null;
    }
    return new PlaneTransform(
        a,
        -d,
        p.x() + p.dx() - a * p.x() + d * p.y(),
        d,
        a,
        p.y() + p.dy() - d * p.x() - a * p.y());
  }

  static double distance(PlaneTransform t, PatchMatch m) {
    return Math.hypot(t.x(m.x(), m.y()) - m.x() - m.dx(), t.y(m.x(), m.y()) - m.y() - m.dy());
  }

  private static List<PatchMatch> within(PlaneTransform t, List<PatchMatch> all, double tolerance) {
    List<PatchMatch> in = new ArrayList<>();
    for (PatchMatch m : all) {
      if (distance(t, m) <= tolerance) {
        in.add(m);
      }
    }
    return in;
  }

  private static PlaneTransform leastSquares(List<PatchMatch> in, PlaneTransform before) {
    boolean affine = in.size() >= LEAST_FOR_AFFINE;
    int columns = affine ? 6 : 4;
    Array2DRowRealMatrix m = new Array2DRowRealMatrix(2 * in.size(), columns);
    ArrayRealVector v = new ArrayRealVector(2 * in.size());
    for (int i = 0; i < in.size(); i++) {
      PatchMatch p = in.get(i);
      double w = Math.max(0.05, p.score());
      double x = p.x() / 1000;
      double y = p.y() / 1000;
      double[] first = affine ? new double[] {x, y, 1, 0, 0, 0} : new double[] {x, -y, 1, 0};
      double[] second = affine ? new double[] {0, 0, 0, x, y, 1} : new double[] {y, x, 0, 1};
      for (int k = 0; k < columns; k++) {
        m.setEntry(2 * i, k, first[k] * w);
        m.setEntry(2 * i + 1, k, second[k] * w);
      }
      v.setEntry(2 * i, (p.x() + p.dx()) * w);
      v.setEntry(2 * i + 1, (p.y() + p.dy()) * w);
    }
    try {
      double[] s = new QRDecomposition(m).getSolver().solve(v).toArray();
      return affine
          ? new PlaneTransform(s[0] / 1000, s[1] / 1000, s[2], s[3] / 1000, s[4] / 1000, s[5])
          : new PlaneTransform(s[0] / 1000, -s[1] / 1000, s[2], s[1] / 1000, s[0] / 1000, s[3]);
    } catch (SingularMatrixException e) {
      return before;
    }
  }

  /** 1.1774 is the median of a Rayleigh distribution of scale 1. */
  private static double scatter(PlaneTransform t, List<PatchMatch> in) {
    double[] d = in.stream().mapToDouble(m -> distance(t, m)).sorted().toArray();
    return d.length == 0 ? 0 : d[d.length / 2] / 1.1774;
  }
}
