package org.diesurvey.preparation;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.raster.PixelPoint;
import org.diesurvey.raster.PixelRect;
import org.diesurvey.vision.Components;

/**
 * Finds the die against the background: a coarse mask of what differs from the picture's corners,
 * then four straight edges measured in the full photograph along the line from background colour to
 * die colour.
 */
final class DieEdgeFinder {
  private static final int OVERVIEW_CELLS = 800;
  private static final int PLACES_PER_SIDE = 160;

  /**
   * Edge points within this many px of the line count as on it: die edges are chipped by sawing.
   */
  private static final double TOLERANCE_PX = 4;

  /** Share of places along every side at which the edge must be seen on the line. */
  private static final double NEEDED_SHARE = 0.45;

  private final PixelSource source;
  private final Overview overview;
  private final float[] background;

  DieEdgeFinder(PixelSource source) {
    this.source = source;
    this.overview = Overview.of(source, OVERVIEW_CELLS);
    this.background = cornerColour();
  }

  /** The die's edge, or empty where no four straight edges stand against a background. */
  Optional<DieEdge> find() {
    Optional<Rough> rough = roughRectangle();
    if (rough.isEmpty()) {
      return Optional.empty();
    }
    Optional<DieEdge> first = refine(rough.get());
    // The second pass starts from the first one's lines, so that its search strips are narrow and
    // straight.
    return first.flatMap(e -> refine(Rough.of(e, rough.get().colour, overview.factor() * 2.0)));
  }

  /** A rectangle known to within {@code slackPx}, and the colour just inside it. */
  private record Rough(
      double cx, double cy, double w, double h, double angle, float[] colour, double slackPx) {
    static Rough of(DieEdge e, float[] colour, double slackPx) {
      double cx = 0;
      double cy = 0;
      for (PixelPoint p : e.corners()) {
        cx += p.x() / 4;
        cy += p.y() / 4;
      }
      return new Rough(
          cx,
          cy,
          e.widthPx(),
          e.heightPx(),
          Math.toRadians(e.rotationDeg()),
          colour,
          Math.max(12, slackPx));
    }
  }

  private float[] cornerColour() {
    int w = overview.width();
    int h = overview.height();
    int s = Math.max(2, Math.min(w, h) / 40);
    float[] colour = new float[3];
    for (int ch = 0; ch < 3; ch++) {
      float[] p = overview.plane(ch);
      double[] medians = new double[4];
      for (int corner = 0; corner < 4; corner++) {
        double[] v = new double[s * s];
        for (int y = 0; y < s; y++) {
          for (int x = 0; x < s; x++) {
            int px = (corner & 1) == 0 ? x : w - 1 - x;
            int py = (corner & 2) == 0 ? y : h - 1 - y;
            v[y * s + x] = p[py * w + px];
          }
        }
        medians[corner] = EdgeLine.median(v);
      }
      colour[ch] = (float) ((sorted(medians)[1] + sorted(medians)[2]) / 2);
    }
    return colour;
  }

  private static double[] sorted(double[] v) {
    double[] c = v.clone();
    Arrays.sort(c);
    return c;
  }

  private Optional<Rough> roughRectangle() {
    int w = overview.width();
    int h = overview.height();
    float[] distance = new float[w * h];
    for (int i = 0; i < distance.length; i++) {
      float d = 0;
      for (int ch = 0; ch < 3; ch++) {
        float e = overview.plane(ch)[i] - background[ch];
        d += e * e;
      }
      distance[i] = (float) Math.sqrt(d);
    }
    float threshold = otsu(distance);
    byte[] mask = new byte[w * h];
    for (int i = 0; i < mask.length; i++) {
      mask[i] = (byte) (distance[i] > threshold ? 1 : 0);
    }
    LabelRaster solid = Components.openOrClose(LabelRaster.over(w, h, mask), 4);
    solid = Components.openOrClose(solid, -2);
    Components.Labelling labelling = Components.label(solid);
    Components.Component largest = null;
    for (Components.Component c : labelling.components()) {
      if (largest == null || c.cells() > largest.cells()) {
        largest = c;
      }
    }
    if (largest == null || largest.cells() < 0.08 * w * h) {
      return Optional.empty();
    }
    return Optional.ofNullable(fitRectangle(labelling.ids(), largest, w, h));
  }

  /** Fits a rectangle to the outermost cells of a component, row by row and column by column. */
  private Rough fitRectangle(int[] ids, Components.Component c, int w, int h) {
    PixelRect b = c.bounds();
    List<double[]> left = new ArrayList<>();
    List<double[]> right = new ArrayList<>();
    for (int y = b.y() + b.height() / 8; y < b.y() + b.height() * 7 / 8; y++) {
      int x0 = b.x();
      while (x0 < b.x() + b.width() && ids[y * w + x0] != c.id()) {
        x0++;
      }
      int x1 = b.x() + b.width() - 1;
      while (x1 > x0 && ids[y * w + x1] != c.id()) {
        x1--;
      }
      left.add(new double[] {y + 0.5, x0});
      right.add(new double[] {y + 0.5, x1 + 1});
    }
    List<double[]> top = new ArrayList<>();
    List<double[]> bottom = new ArrayList<>();
    for (int x = b.x() + b.width() / 8; x < b.x() + b.width() * 7 / 8; x++) {
      int y0 = b.y();
      while (y0 < b.y() + b.height() && ids[y0 * w + x] != c.id()) {
        y0++;
      }
      int y1 = b.y() + b.height() - 1;
      while (y1 > y0 && ids[y1 * w + x] != c.id()) {
        y1--;
      }
      top.add(new double[] {x + 0.5, y0});
      bottom.add(new double[] {x + 0.5, y1 + 1});
    }
    EdgeLine l = EdgeLine.fit(left, left.size(), 2.5);
    EdgeLine r = EdgeLine.fit(right, right.size(), 2.5);
    EdgeLine t = EdgeLine.fit(top, top.size(), 2.5);
    EdgeLine m = EdgeLine.fit(bottom, bottom.size(), 2.5);
    double seen =
        Math.min(
            Math.min(l.inlierShare(), r.inlierShare()), Math.min(t.inlierShare(), m.inlierShare()));
    if (seen < 0.3) {
      return null;
    }
    double angle = (t.slope() + m.slope() - l.slope() - r.slope()) / 4;
    double midX = b.x() + b.width() / 2.0;
    double midY = b.y() + b.height() / 2.0;
    double xl = l.offset() + l.slope() * midY;
    double xr = r.offset() + r.slope() * midY;
    double yt = t.offset() + t.slope() * midX;
    double yb = m.offset() + m.slope() * midX;
    int f = overview.factor();
    double cos = Math.cos(angle);
    double cx = (xl + xr) / 2 * f;
    double cy = (yt + yb) / 2 * f;
    return new Rough(
        cx,
        cy,
        (xr - xl) * f * cos,
        (yb - yt) * f * cos,
        angle,
        innerColour(ids, c.id(), w, h),
        4.0 * f);
  }

  private float[] innerColour(int[] ids, int id, int w, int h) {
    float[] colour = new float[3];
    for (int ch = 0; ch < 3; ch++) {
      double[] v = new double[w * h];
      int n = 0;
      for (int i = 0; i < v.length; i++) {
        if (ids[i] == id) {
          v[n++] = overview.plane(ch)[i];
        }
      }
      colour[ch] = (float) EdgeLine.median(Arrays.copyOf(v, n));
    }
    return colour;
  }

  private static float otsu(float[] values) {
    int bins = 512;
    float max = 1e-6f;
    for (float v : values) {
      max = Math.max(max, v);
    }
    long[] hist = new long[bins];
    for (float v : values) {
      hist[Math.min(bins - 1, (int) (v / max * bins))]++;
    }
    double total = 0;
    for (int i = 0; i < bins; i++) {
      total += i * (double) hist[i];
    }
    double below = 0;
    double sumBelow = 0;
    double best = -1;
    int at = 0;
    for (int i = 0; i < bins - 1; i++) {
      below += hist[i];
      sumBelow += i * (double) hist[i];
      double above = values.length - below;
      if (below == 0 || above == 0) {
        continue;
      }
      double gap = sumBelow / below - (total - sumBelow) / above;
      double between = below * above * gap * gap;
      if (between > best) {
        best = between;
        at = i;
      }
    }
    return (at + 1) * max / bins;
  }

  private Optional<DieEdge> refine(Rough r) {
    double ux = Math.cos(r.angle);
    double uy = Math.sin(r.angle);
    // Sides in the order top, right, bottom, left: along direction and outward normal.
    double[][] along = {{ux, uy}, {-uy, ux}, {ux, uy}, {-uy, ux}};
    double[][] out = {{uy, -ux}, {ux, uy}, {-uy, ux}, {-ux, -uy}};
    double[] half = {r.h / 2, r.w / 2, r.h / 2, r.w / 2};
    double[] length = {r.w, r.h, r.w, r.h};
    EdgeLine[] lines = new EdgeLine[4];
    for (int side = 0; side < 4; side++) {
      lines[side] = measureSide(r, along[side], out[side], half[side], length[side]);
      if (lines[side].inlierShare() < NEEDED_SHARE) {
        return Optional.empty();
      }
    }
    // Slopes: offset grows outward; a clockwise turn lowers the top's right end, hence the signs.
    double turn =
        (-lines[0].slope() + lines[1].slope() * -1 + lines[2].slope() + lines[3].slope()) / 4;
    double angle = r.angle + Math.atan(turn);
    double width = r.w + lines[1].offset() + lines[3].offset();
    double height = r.h + lines[0].offset() + lines[2].offset();
    double dx = (lines[1].offset() - lines[3].offset()) / 2;
    double dy = (lines[2].offset() - lines[0].offset()) / 2;
    double cx = r.cx + ux * dx - uy * dy;
    double cy = r.cy + uy * dx + ux * dy;
    double residual = 0;
    for (EdgeLine l : lines) {
      residual = Math.max(residual, l.residualPx() / Math.sqrt(Math.max(1, l.inliers() / 4.0)));
    }
    double vx = Math.cos(angle);
    double vy = Math.sin(angle);
    List<PixelPoint> corners = new ArrayList<>();
    for (double[] s : new double[][] {{-1, -1}, {1, -1}, {1, 1}, {-1, 1}}) {
      double a = s[0] * width / 2;
      double b = s[1] * height / 2;
      corners.add(new PixelPoint(cx + vx * a - vy * b, cy + vy * a + vx * b));
    }
    return Optional.of(
        new DieEdge(corners, Math.toDegrees(angle), width, height, Math.max(0.3, residual)));
  }

  /**
   * Offsets across one side, positive outward, at places along it counted from the side's middle.
   */
  private EdgeLine measureSide(Rough r, double[] along, double[] out, double half, double length) {
    int reach = (int) Math.ceil(r.slackPx);
    List<double[]> points = new ArrayList<>();
    int inFrame = 0;
    for (int i = 0; i < PLACES_PER_SIDE; i++) {
      double t = (i + 0.5) / PLACES_PER_SIDE * 0.92 - 0.46;
      double px = r.cx + out[0] * half + along[0] * t * length;
      double py = r.cy + out[1] * half + along[1] * t * length;
      double[] profile = profile(px, py, along, out, reach, r.colour);
      if (profile.length == 0) {
        continue;
      }
      inFrame++;
      double edge = step(profile);
      if (!Double.isNaN(edge)) {
        points.add(new double[] {t * length, edge - reach});
      }
    }
    return EdgeLine.fit(points, Math.max(inFrame, PLACES_PER_SIDE / 2), TOLERANCE_PX);
  }

  /**
   * Die-likeness (0 background colour, 1 die colour) from {@code reach} px inside to {@code reach}
   * px outside.
   */
  private double[] profile(
      double px, double py, double[] along, double[] out, int reach, float[] colour) {
    int x0 = (int) Math.floor(px) - reach - 3;
    int y0 = (int) Math.floor(py) - reach - 3;
    int side = 2 * reach + 7;
    if (x0 < 0 || y0 < 0 || x0 + side > source.width() || y0 + side > source.height()) {
      return shortProfile(px, py, out, reach, colour);
    }
    int[] rgb = new int[side * side];
    source.readRgb(new PixelRect(x0, y0, side, side), rgb);
    double[] profile = new double[2 * reach + 1];
    for (int k = 0; k <= 2 * reach; k++) {
      double sum = 0;
      for (int j = -2; j <= 2; j++) {
        int x = (int) Math.floor(px + out[0] * (k - reach) + along[0] * j) - x0;
        int y = (int) Math.floor(py + out[1] * (k - reach) + along[1] * j) - y0;
        sum += likeness(rgb[y * side + x], colour);
      }
      profile[k] = sum / 5;
    }
    return profile;
  }

  /**
   * A profile near the photo's frame: pixels beyond it repeat the last one seen; empty if the place
   * is outside.
   */
  private double[] shortProfile(double px, double py, double[] out, int reach, float[] colour) {
    double[] profile = new double[2 * reach + 1];
    int[] one = new int[1];
    double last = Double.NaN;
    int seen = 0;
    for (int k = 0; k <= 2 * reach; k++) {
      int x = (int) Math.floor(px + out[0] * (k - reach));
      int y = (int) Math.floor(py + out[1] * (k - reach));
      if (x >= 0 && y >= 0 && x < source.width() && y < source.height()) {
        source.readRgb(new PixelRect(x, y, 1, 1), one);
        last = likeness(one[0], colour);
        seen++;
      }
      profile[k] = last;
    }
    return seen < reach || Double.isNaN(profile[0]) ? new double[0] : profile;
  }

  private double likeness(int rgb, float[] colour) {
    double dot = 0;
    double norm = 1e-9;
    for (int ch = 0; ch < 3; ch++) {
      double v = ((rgb >> (16 - 8 * ch)) & 0xff) / 255.0;
      double axis = colour[ch] - background[ch];
      dot += (v - background[ch]) * axis;
      norm += axis * axis;
    }
    return Math.max(-0.5, Math.min(1.5, dot / norm));
  }

  /**
   * Index of the outermost clear fall from die to background, to a fraction of a pixel; NaN if
   * there is none.
   */
  private static double step(double[] p) {
    int n = p.length;
    double[] cumulative = new double[n + 1];
    for (int i = 0; i < n; i++) {
      cumulative[i + 1] = cumulative[i] + p[i];
    }
    int run = Math.max(3, Math.min(8, n / 6));
    double best = 0.35;
    int at = -1;
    for (int i = run; i + run <= n; i++) {
      double inside = (cumulative[i] - cumulative[i - run]) / run;
      double outside = (cumulative[i + run] - cumulative[i]) / run;
      double fall = inside - outside;
      if (fall >= best) {
        best = fall;
        at = i;
      }
    }
    if (at < 0) {
      return Double.NaN;
    }
    double inside = (cumulative[at] - cumulative[at - run]) / run;
    double outside = (cumulative[Math.min(n, at + run)] - cumulative[at]) / run;
    double level = (inside + outside) / 2;
    for (int i = Math.max(1, at - run); i < Math.min(n, at + run); i++) {
      if (p[i - 1] >= level && p[i] < level) {
        return i - 1 + (p[i - 1] - level) / (p[i - 1] - p[i]);
      }
    }
    return at;
  }
}
