package org.diesurvey.calibration.micrometer;

import java.util.ArrayList;
import java.util.List;
import org.diesurvey.calibration.micrometer.LineCentres.Centre;

/** The ground between neighbouring lines, laid over one another. */
final class GroundProfile {
  private static final int BINS = 48;

  /** Narrower ground than this shows no lines of its own. */
  private static final double LEAST_GROUND_PX = 5;

  private GroundProfile() {}

  /**
   * Median over the gaps of the grey between two neighbouring lines, in equal steps from one line's
   * flank to the next one's; empty where the lines stand so close that no ground is left. A line
   * that every gap has stays, dirt in single gaps does not.
   */
  static double[] between(UprightView view, LineCentres core, List<Centre> lines) {
    List<double[]> gaps = new ArrayList<>();
    int v0 = (int) Math.ceil(core.coreTop());
    int v1 = (int) Math.floor(core.coreBottom());
    int inset = (v1 - v0) / 6;
    double flank = 0.5 * core.shape().width() + 2.5 * core.shape().blur();
    for (int i = 1; i < lines.size(); i++) {
      Centre a = lines.get(i - 1);
      Centre b = lines.get(i);
      double from = a.u() + flank;
      double to = b.u() - flank;
      boolean inside =
          view.inside(a.u(), v0)
              && view.inside(b.u(), v0)
              && view.inside(a.u(), v1)
              && view.inside(b.u(), v1);
      if (b.mark().index() - a.mark().index() == 1 && to - from >= LEAST_GROUND_PX && inside) {
        gaps.add(gap(view, v0 + inset, v1 - inset, from, to));
      }
    }
    if (gaps.isEmpty()) {
      return new double[0];
    }
    double[] out = new double[BINS];
    for (int k = 0; k < BINS; k++) {
      int bin = k;
      out[k] = LatticeSearch.median(gaps.stream().mapToDouble(g -> g[bin]).toArray());
    }
    return out;
  }

  private static double[] gap(UprightView view, int v0, int v1, double from, double to) {
    int first = (int) Math.floor(from) - 1;
    double[] p = view.profile(v0, Math.max(v0 + 1, v1), Math.max(0, first), (int) to + 2);
    double[] out = new double[BINS];
    for (int k = 0; k < BINS; k++) {
      double at = from + (to - from) * (k + 0.5) / BINS - 0.5 - Math.max(0, first);
      int i = Math.max(0, Math.min(p.length - 2, (int) at));
      double f = Math.max(0, Math.min(1, at - i));
      out[k] = p[i] + f * (p[i + 1] - p[i]);
    }
    return out;
  }
}
