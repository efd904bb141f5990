package org.diesurvey.calibration.micrometer;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** Joins the pieces of one line that dirt, a fibre or a base line cut in two. */
final class StrokeJoiner {
  private StrokeJoiner() {}

  static List<Stroke> joined(List<Stroke> pieces) {
    List<Stroke> rest = new ArrayList<>(pieces);
    rest.sort(Comparator.comparingDouble(Stroke::top));
    List<Stroke> out = new ArrayList<>();
    while (!rest.isEmpty()) {
      Stroke s = rest.remove(0);
      for (int i = 0; i < rest.size(); i++) {
        if (continues(s, rest.get(i))) {
          s = join(s, rest.remove(i));
          i = -1;
        }
      }
      out.add(s);
    }
    return out;
  }

  private static boolean continues(Stroke above, Stroke below) {
    double gap = below.top() - above.bottom();
    if (gap < 0 || gap > 0.5 * (above.length() + below.length())) {
      return false;
    }
    double v = 0.5 * (above.bottom() + below.top());
    boolean alike = above.depth() < 2 * below.depth() && below.depth() < 2 * above.depth();
    // Compared half way across the gap, with the steadier of the two slopes.
    double slope = above.length() > below.length() ? above.slope() : below.slope();
    double fromAbove = above.u() + slope * (v - 0.5 * (above.top() + above.bottom()));
    double fromBelow = below.u() + slope * (v - 0.5 * (below.top() + below.bottom()));
    return alike
        && Math.abs(fromAbove - fromBelow)
            <= Math.max(1, 0.2 * Math.min(above.width(), below.width()));
  }

  private static Stroke join(Stroke a, Stroke b) {
    double wa = a.length() / (a.length() + b.length());
    double va = 0.5 * (a.top() + a.bottom());
    double vb = 0.5 * (b.top() + b.bottom());
    double slope = (b.u() - a.u()) / (vb - va);
    double v = 0.5 * (a.top() + b.bottom());
    return new Stroke(
        a.u() + slope * (v - va),
        slope,
        a.top(),
        b.bottom(),
        wa * a.width() + (1 - wa) * b.width(),
        wa * a.depth() + (1 - wa) * b.depth());
  }
}
