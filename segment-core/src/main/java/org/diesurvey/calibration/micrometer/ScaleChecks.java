package org.diesurvey.calibration.micrometer;

import java.util.Arrays;
import java.util.List;
import org.diesurvey.calibration.micrometer.Lattice.Mark;
import org.diesurvey.calibration.micrometer.LineCentres.Centre;
import org.diesurvey.raster.GrayRaster;

/** Everything that makes a count doubtful; each check refuses with one sentence. */
final class ScaleChecks {
  /** Share of pixels at the largest value from which the picture counts as burnt out. */
  private static final double BURNT_OUT = 0.25;

  private static final double TOP = 1 - 0.6 / 255;

  /** Share of the places between the first and the last line that must hold a line. */
  private static final double FULLEST = 0.68;

  /** Allowed difference of the occupied shares of places that come in turn, as even and odd. */
  private static final double UNEVEN = 0.5;

  /** A stroke between the lines counts as one of them from this share of their length on. */
  private static final double STRAY_LENGTH = 0.6;

  /** Share of the strong edges that must lie in the area of the lines, a second scale allowed. */
  static final double INSIDE_AT_ALL = 0.3;

  /** The same once a second scale is ruled out. */
  static final double INSIDE = 0.5;

  /** Share of the grey changes in the scale's area that must come from lines along it. */
  private static final double LINES_SHARE = 0.55;

  /** Allowed standard deviation of the lines' directions, as slope: half a degree. */
  private static final double FAN = 0.0087;

  /** A line between the lines is one from this share of their depth on. */
  private static final double FAINT_LINE = 0.15;

  /** Allowed scatter of the lines about equal steps, share of a step. */
  private static final double IRREGULAR = 0.05;

  private final Candidate scale;
  private final LineCentres core;
  private final List<Centre> measured;
  private final Refusal refusal;

  ScaleChecks(Candidate scale, LineCentres core, List<Centre> measured, Refusal refusal) {
    this.scale = scale;
    this.core = core;
    this.measured = measured;
    this.refusal = refusal;
  }

  /** Refuses a burnt-out picture. */
  static void exposure(GrayRaster photo, Refusal refusal) {
    int burnt = 0;
    for (float v : photo.array()) {
      burnt += v >= TOP ? 1 : 0;
    }
    double share = burnt / (double) photo.array().length;
    if (share > BURNT_OUT) {
      throw refusal.of(
          "the picture is burnt out: %.0f %% of it has the largest value",
          "photograph it again with a shorter exposure", 100 * share);
    }
  }

  /** Refuses rows that are too short, too full of gaps, or have gaps at every second place. */
  static void row(Candidate scale, Refusal refusal) {
    Lattice l = scale.lattice();
    int n = l.marks().size();
    if (n < 3) {
      throw refusal.noScale();
    }
    if (n < MicrometerFinder.FEWEST_LINES) {
      throw l.fullness() >= FULLEST ? refusal.tooFew(n) : refusal.noScale();
    }
    double length = length(l);
    long between = l.strays().stream().filter(s -> s.length() > STRAY_LENGTH * length).count();
    if (between >= 2 && between <= 0.25 * n) {
      throw refusal.of(
          "between %d lines of one spacing stand %d lines more, so every second line may be missing"
              + " and the spacing can be read in two ways",
          "clean the micrometer, focus and photograph it again", n, between);
    }
    if (l.strays().size() > 0.25 * n && l.strays().size() >= 3) {
      throw refusal.of(
          "%d lines fit one spacing, but %d lines between them do not: the lines are doubled, or"
              + " two scales lie over one another",
          "photograph one scale alone, in focus", n, l.strays().size());
    }
    for (int m = 2; m <= 3; m++) {
      if (l.places() >= 4 * m && patterned(l, m)) {
        throw refusal.of(
            "lines are missing in a regular pattern (at every %s place), so lines are doubled or"
                + " lost and the spacing can be read in two ways",
            "clean the micrometer, focus and photograph it again", m == 2 ? "second" : "third");
      }
    }
    if (l.fullness() < FULLEST) {
      throw n >= 8
          ? refusal.of(
              "the %d lines found do not stand at equal distances (%d places are empty)",
              "photograph one clean scale with equal divisions", n, l.places() - n)
          : refusal.noScale();
    }
  }

  /** Whether one in m places is nearly always empty and another one nearly always full. */
  private static boolean patterned(Lattice l, int m) {
    double[] places = new double[m];
    double[] full = new double[m];
    for (int i = 0; i < l.places(); i++) {
      places[i % m]++;
    }
    l.marks().forEach(mark -> full[mark.index() % m]++);
    double least = 1;
    double most = 0;
    for (int i = 0; i < m; i++) {
      least = Math.min(least, full[i] / places[i]);
      most = Math.max(most, full[i] / places[i]);
    }
    return most > 0.75 && most - least > UNEVEN;
  }

  /**
   * Refuses textures: in a micrometer's area grey changes across the lines, not along them, and
   * outside of it there is little.
   *
   * @param insideShare of the strong edges, from {@link EdgeConcentration}
   * @param least smallest share accepted
   */
  void plainGround(double insideShare, double least) {
    if (insideShare < least || lineShare() < LINES_SHARE) {
      throw refusal.noScale();
    }
  }

  /** Share of the variance in the scale's area that the mean over the lines' length explains. */
  double lineShare() {
    int v0 = (int) Math.ceil(core.coreTop());
    int v1 = (int) Math.floor(core.coreBottom());
    int u0 = Math.max(0, (int) measured.get(0).u());
    int u1 = Math.min(scale.view().width(), (int) measured.get(measured.size() - 1).u() + 1);
    int rows = Math.max(1, Math.min(LineSegmentDetector.STRIP_PX, (v1 - v0) / 3));
    int strips = (v1 - v0) / rows;
    if (strips < 2 || u1 <= u0) {
      return 0;
    }
    double[][] p = new double[strips][];
    for (int i = 0; i < strips; i++) {
      p[i] = scale.view().profile(v0 + i * rows, v0 + (i + 1) * rows, u0, u1);
    }
    double total = 0;
    double along = 0;
    double sum = 0;
    long n = 0;
    for (int u = 0; u < u1 - u0; u++) {
      double mean = 0;
      int inside = 0;
      for (int i = 0; i < strips; i++) {
        if (scale.view().inside(u0 + u, v0 + i * rows)) {
          mean += p[i][u];
          inside++;
        }
      }
      if (inside < 2) {
        continue;
      }
      mean /= inside;
      for (int i = 0; i < strips; i++) {
        if (scale.view().inside(u0 + u, v0 + i * rows)) {
          along += (p[i][u] - mean) * (p[i][u] - mean);
          total += p[i][u] * p[i][u];
          sum += p[i][u];
          n++;
        }
      }
    }
    double variance = total - sum * sum / Math.max(1, n);
    return variance > 0 ? 1 - along / variance : 0;
  }

  /** Refuses rows in which many strokes do not have the shape of the others. */
  void alike() {
    int n = scale.lattice().marks().size();
    if (measured.size() < FULLEST * n) {
      throw refusal.of(
          "only %d of the %d lines found are alike, so lines may be doubled and the spacing can be"
              + " read in two ways",
          "photograph one clean scale in focus", measured.size(), n);
    }
  }

  /** Refuses lines that fan out. */
  void parallel() {
    double[] slopes = measured.stream().mapToDouble(c -> c.mark().stroke().slope()).toArray();
    double[] lengths = measured.stream().mapToDouble(c -> c.mark().stroke().length()).toArray();
    // Ends of short lines are known to a part of a pixel, so their slopes scatter by that alone.
    double allowed = FAN + 0.6 / Math.max(6, LatticeSearch.median(lengths));
    double spread = deviation(slopes);
    if (spread > allowed) {
      throw refusal.of(
          "the lines are not parallel: their directions scatter by %.1f degrees",
          "set the micrometer level and photograph it again", Math.toDegrees(Math.atan(spread)));
    }
  }

  /** Refuses a scale with fainter lines between those that were counted. */
  void nothingBetween() {
    double depth = LatticeSearch.median(measured.stream().mapToDouble(Centre::depth).toArray());
    double[] gap = GroundProfile.between(scale.view(), core, measured);
    if (gap.length < 5) {
      return;
    }
    double ground = LatticeSearch.median(gap);
    double lowest = Arrays.stream(gap).min().orElse(ground);
    if (ground - lowest > FAINT_LINE * depth) {
      throw refusal.of(
          "there are fainter lines between those counted (%.0f %% of their depth), so the spacing"
              + " can be read in two ways",
          "clean the micrometer, focus and photograph it again", 100 * (ground - lowest) / depth);
    }
  }

  /** Refuses a second scale, beside the first or across it. */
  void oneScale(List<Candidate> others, GrayRaster photo) {
    List<Stroke> rest =
        scale.strokes().stream()
            .filter(s -> scale.lattice().marks().stream().noneMatch(m -> same(m, s)))
            .toList();
    double depth = depth(scale.lattice());
    List<Stroke> strong =
        rest.stream().filter(s -> s.depth() > 0.4 * depth && s.length() > 3 * s.width()).toList();
    LatticeSearch.best(strong, scale.view().height())
        .filter(l -> isScale(l, depth) && ownLines(l))
        .ifPresent(
            l -> {
              throw refusal.of(
                  "there are two scales, with lines %.1f px and %.1f px apart",
                  "photograph one scale alone, or cut the picture to one",
                  scale.lattice().stepPx(),
                  l.stepPx());
            });
    for (Candidate c : others) {
      if (LineDirections.apart(c.acrossDeg(), scale.acrossDeg()) > 5
          && isScale(c.lattice(), depth)
          && comparable(c.lattice())
          && crosses(c.refined(photo))) {
        throw refusal.of(
            "two sets of lines cross at %.0f degrees",
            "photograph one scale alone, or cut the picture to one",
            LineDirections.apart(c.acrossDeg(), scale.acrossDeg()));
      }
    }
  }

  /** Whether a row across the scale consists of lines, not of cuts through the scale's own. */
  private boolean crosses(Candidate other) {
    LineCentres centres = new LineCentres(other.view(), other.lattice());
    List<Centre> lines = centres.all();
    return LineDirections.apart(other.acrossDeg(), scale.acrossDeg()) > 5
        && lines.size() >= MicrometerFinder.FEWEST_LINES
        && new ScaleChecks(other, centres, lines, refusal).lineShare() > LINES_SHARE;
  }

  /** Whether a stroke is a piece of a line of the scale. */
  private static boolean same(Mark m, Stroke s) {
    Stroke a = m.stroke();
    double gap = Math.max(s.top() - a.bottom(), a.top() - s.bottom());
    double v = 0.5 * (s.top() + s.bottom());
    return a.equals(s)
        || gap < 0.3 * a.length() && Math.abs(a.at(v) - s.at(v)) < Math.max(2, 0.6 * a.width());
  }

  private static boolean isScale(Lattice l, double depth) {
    return l.marks().size() >= MicrometerFinder.FEWEST_LINES
        && l.fullness() > 0.8
        && depth(l) > 0.4 * depth;
  }

  /**
   * Whether another row is a scale of its own: its strokes are long enough to be engraved lines,
   * not strokes of numerals, and its step is no multiple of the first one's, as for pieces of the
   * longer lines or numerals at each 10th division.
   */
  private boolean ownLines(Lattice l) {
    double ratio = l.stepPx() / scale.lattice().stepPx();
    boolean multiple = ratio > 0.9 && Math.abs(ratio - Math.rint(ratio)) < 0.01 * ratio;
    return !multiple && length(l) > 0.4 * length(scale.lattice());
  }

  private boolean comparable(Lattice l) {
    return length(l) > 0.4 * length(scale.lattice())
        && l.marks().size() > 0.25 * scale.lattice().marks().size();
  }

  private static double depth(Lattice l) {
    return LatticeSearch.median(l.marks().stream().mapToDouble(m -> m.stroke().depth()).toArray());
  }

  private static double length(Lattice l) {
    return LatticeSearch.median(l.marks().stream().mapToDouble(m -> m.stroke().length()).toArray());
  }

  /** Refuses lines that are equally spaced only roughly. */
  void regular(StepFit fit) {
    if (fit.lines < MicrometerFinder.FEWEST_LINES) {
      throw refusal.tooFew(fit.lines);
    }
    int left = fit.residualsPx.length - fit.lines;
    if (fit.scatterPx > IRREGULAR * fit.stepPx || left > 0.3 * fit.residualsPx.length) {
      throw refusal.of(
          "the lines do not stand at equal distances: they scatter by %.1f %% of a division, %d of"
              + " %d stand apart",
          "photograph one clean scale with equal divisions",
          100 * fit.scatterPx / fit.stepPx,
          left,
          fit.residualsPx.length);
    }
  }

  /** Standard deviation about the mean. */
  static double deviation(double[] values) {
    double mean = Arrays.stream(values).average().orElse(0);
    double squares = Arrays.stream(values).map(v -> (v - mean) * (v - mean)).sum();
    return Math.sqrt(squares / Math.max(1, values.length - 1));
  }
}
