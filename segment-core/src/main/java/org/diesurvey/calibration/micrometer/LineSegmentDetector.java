package org.diesurvey.calibration.micrometer;

import java.util.ArrayList;
import java.util.List;
import org.diesurvey.calibration.micrometer.ProfileMinima.Dip;

/** Finds strokes: minima of strips of rows, linked from strip to strip. */
final class LineSegmentDetector {
  /** Rows from strip to strip. */
  static final int STRIP_PX = 6;

  /** Rows above and below a strip that its profile takes in: less noise, ends less sharp. */
  private static final int OVERLAP_PX = 3;

  /** A dip must exceed the noise of its profile by this factor. */
  private static final double NOISE_FACTOR = 6;

  /** No dip is shallower than this, grey 0 to 1: two to three levels of 8 bit. */
  private static final double FAINTEST = 0.01;

  /** Least depth of a dip in the second pass, share of the usual depth of the first. */
  private static final double USUAL_SHARE = 0.35;

  /** Strips that a stroke may lack, where dirt hides it. */
  private static final int GAP_STRIPS = 2;

  /** Fewest strips of a stroke. */
  private static final int SHORTEST_STRIPS = 2;

  private LineSegmentDetector() {}

  /**
   * All strokes of a view. A first pass keeps whatever stands out of the noise; a second one only
   * what has a good part of the usual depth: so the fringes that a camera's sharpening draws beside
   * a broad line are not taken for lines.
   */
  static List<Stroke> in(UprightView view) {
    int strips = view.height() / STRIP_PX;
    double[][] profiles = new double[strips][];
    int[] first = new int[strips];
    double[] thresholds = new double[strips];
    for (int s = 0; s < strips; s++) {
      int v0 = Math.max(0, s * STRIP_PX - OVERLAP_PX);
      int v1 = Math.min(view.height(), (s + 1) * STRIP_PX + OVERLAP_PX);
      int[] columns = view.columns(v0, v1);
      first[s] = columns[0];
      profiles[s] = view.profile(v0, v1, columns[0], columns[1]);
      thresholds[s] = Math.max(FAINTEST, NOISE_FACTOR * ProfileMinima.noise(profiles[s]));
    }
    List<Stroke> all = linked(profiles, first, thresholds);
    double least = USUAL_SHARE * LatticeSearch.usualDepth(all);
    for (int s = 0; s < strips; s++) {
      thresholds[s] = Math.max(thresholds[s], least);
    }
    return linked(profiles, first, thresholds);
  }

  private static List<Stroke> linked(double[][] profiles, int[] first, double[] thresholds) {
    List<Chain> open = new ArrayList<>();
    List<Stroke> done = new ArrayList<>();
    for (int s = 0; s < profiles.length; s++) {
      link(open, ProfileMinima.of(profiles[s], first[s], thresholds[s]), s);
      for (int i = open.size() - 1; i >= 0; i--) {
        if (s - open.get(i).lastStrip > GAP_STRIPS) {
          close(open.remove(i), done);
        }
      }
    }
    open.forEach(c -> close(c, done));
    return done;
  }

  /** Gives each dip to the nearest chain that ends close to it, else begins a new one. */
  private static void link(List<Chain> open, List<Dip> dips, int strip) {
    open.sort(java.util.Comparator.comparingDouble(c -> c.lastU));
    Chain[] owner = new Chain[dips.size()];
    int from = 0;
    for (Chain c : open) {
      double reach = Math.max(1.3, 0.25 * c.width) * (strip - c.lastStrip);
      while (from < dips.size() && dips.get(from).u() < c.lastU - reach - 100) {
        from++;
      }
      int best = -1;
      for (int i = from; i < dips.size() && dips.get(i).u() <= c.lastU + reach; i++) {
        double d = Math.abs(dips.get(i).u() - c.lastU);
        boolean alike = dips.get(i).width() < 2.5 * c.width && c.width < 2.5 * dips.get(i).width();
        if (d <= reach
            && alike
            && owner[i] == null
            && (best < 0 || d < Math.abs(dips.get(best).u() - c.lastU))) {
          best = i;
        }
      }
      if (best >= 0) {
        owner[best] = c;
      }
    }
    for (int i = 0; i < owner.length; i++) {
      if (owner[i] == null) {
        open.add(new Chain(dips.get(i), strip));
      } else {
        owner[i].add(dips.get(i), strip);
      }
    }
  }

  private static void close(Chain chain, List<Stroke> done) {
    if (chain.n >= SHORTEST_STRIPS) {
      done.add(chain.stroke());
    }
  }

  /** Dips linked so far; sums for a straight line through them. */
  private static final class Chain {
    private final int firstStrip;
    private int lastStrip;
    private double lastU;
    private double width;
    private double depth;
    private int n;
    private double sv;
    private double su;
    private double svv;
    private double svu;

    Chain(Dip dip, int strip) {
      firstStrip = strip;
      width = dip.width();
      add(dip, strip);
    }

    void add(Dip dip, int strip) {
      double v = (strip + 0.5) * STRIP_PX;
      lastStrip = strip;
      lastU = dip.u();
      depth = (depth * n + dip.depth()) / (n + 1);
      width = (width * n + dip.width()) / (n + 1);
      n++;
      sv += v;
      su += dip.u();
      svv += v * v;
      svu += v * dip.u();
    }

    Stroke stroke() {
      double spread = svv - sv * sv / n;
      double slope = spread > 0 ? (svu - sv * su / n) / spread : 0;
      double top = firstStrip * STRIP_PX;
      double bottom = (lastStrip + 1) * STRIP_PX;
      double u = su / n + slope * (0.5 * (top + bottom) - sv / n);
      return new Stroke(u, slope, top, bottom, width, depth);
    }
  }
}
