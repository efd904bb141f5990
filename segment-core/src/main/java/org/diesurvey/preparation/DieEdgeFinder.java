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
 * Finds the die against the background: a coarse mask of what differs from the picture's frame,
 * then four straight edges measured in the full photograph along the line from background colour to
 * die colour.
 */
final class DieEdgeFinder {
  private static final int OVERVIEW_CELLS = 800;

  /**
   * Least share of the photograph that a die fills: a smaller rectangle is a block of a larger die.
   */
  private static final double LEAST_SHARE = 0.28;

  /**
   * Largest mean difference of the colour just outside the four sides from that of the picture's
   * frame, over the step into the die: beyond it the outside is layout, not background. Chosen on
   * drawn dies.
   */
  private static final double STRANGE_OUTSIDE = 0.25;

  /** Share of places along every side at which the edge must be seen on the line. */
  private static final double NEEDED_SHARE = 0.45;

  private final PixelSource source;
  private final Overview overview;
  private final float[] background;

  DieEdgeFinder(PixelSource source) {
    this.source = source;
    this.overview = Overview.of(source, OVERVIEW_CELLS);
    this.background = frameColour();
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
    return first.flatMap(e -> refine(Rough.of(e, overview.factor() * 2.0)));
  }

  /**
   * A rectangle known to within {@code slackPx}; at least the share {@code seen} of the places of
   * every side agrees.
   */
  record Rough(
      double cx, double cy, double w, double h, double angle, double slackPx, double seen) {
    static Rough of(DieEdge e, double slackPx) {
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
          Math.max(12, slackPx),
          1);
    }
  }

  /**
   * Median colour of the picture's frame: a neighbouring die along one side does not outweigh the
   * background on the other three.
   */
  private float[] frameColour() {
    int w = overview.width();
    int h = overview.height();
    int s = Math.max(2, Math.min(w, h) / 80);
    float[] colour = new float[3];
    for (int ch = 0; ch < 3; ch++) {
      float[] p = overview.plane(ch);
      double[] v = new double[w * h];
      int n = 0;
      for (int i = 0; i < p.length; i++) {
        int x = i % w;
        int y = i / w;
        if (x < s || y < s || x >= w - s || y >= h - s) {
          v[n++] = p[i];
        }
      }
      colour[ch] = (float) EdgeLine.median(Arrays.copyOf(v, n));
    }
    return colour;
  }

  /**
   * Tries several thresholds between background and die: what is joined to the picture's frame
   * below the threshold is background, and the threshold that leaves the straightest four sides
   * wins.
   */
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
    float otsu = otsu(distance);
    Rough best = null;
    for (float share : new float[] {1, 0.75f, 0.55f, 0.4f, 0.28f, 0.2f, 1.3f}) {
      Rough r = rectangleAt(distance, share * otsu, w, h);
      if (r != null && (best == null || r.seen > best.seen + 0.02)) {
        best = r;
      }
    }
    return Optional.ofNullable(best);
  }

  private Rough rectangleAt(float[] distance, float threshold, int w, int h) {
    byte[] quiet = new byte[w * h];
    for (int i = 0; i < quiet.length; i++) {
      quiet[i] = (byte) (distance[i] <= threshold ? 1 : 0);
    }
    Components.Labelling around =
        Components.label(Components.openOrClose(LabelRaster.over(w, h, quiet), -1));
    boolean[] outside = new boolean[around.components().size() + 1];
    int margin = Math.max(1, Math.min(w, h) / 60);
    for (int i = 0; i < distance.length; i++) {
      int x = i % w;
      int y = i / w;
      if (x < margin || y < margin || x >= w - margin || y >= h - margin) {
        outside[around.ids()[i]] = true;
      }
    }
    outside[0] = false;
    byte[] mask = new byte[w * h];
    for (int i = 0; i < mask.length; i++) {
      mask[i] = (byte) (outside[around.ids()[i]] ? 0 : 1);
    }
    LabelRaster solid = Components.openOrClose(LabelRaster.over(w, h, mask), -4);
    Components.Labelling labelling = Components.label(solid);
    Components.Component largest = null;
    for (Components.Component c : labelling.components()) {
      if (largest == null || c.cells() > largest.cells()) {
        largest = c;
      }
    }
    if (largest == null || largest.cells() < 0.06 * w * h) {
      return null;
    }
    return fitRectangle(labelling.ids(), largest, w, h);
  }

  /** Fits a rectangle to the outermost cells of a component, row by row and column by column. */
  private Rough fitRectangle(int[] ids, Components.Component c, int w, int h) {
    PixelRect b = c.bounds();
    List<double[]> left = new ArrayList<>();
    List<double[]> right = new ArrayList<>();
    int yStep = Math.max(1, b.height() / 200);
    for (int y = b.y() + b.height() / 8; y < b.y() + b.height() * 7 / 8; y += yStep) {
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
    int xStep = Math.max(1, b.width() / 200);
    for (int x = b.x() + b.width() / 8; x < b.x() + b.width() * 7 / 8; x += xStep) {
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
    boolean hugsFrame = xl < 1 || yt < 1 || xr > w - 1 || yb > h - 1;
    if (hugsFrame || (xr - xl) * (yb - yt) < LEAST_SHARE * w * h) {
      return null;
    }
    int f = overview.factor();
    double cos = Math.cos(angle);
    double cx = (xl + xr) / 2 * f;
    double cy = (yt + yb) / 2 * f;
    return new Rough(cx, cy, (xr - xl) * f * cos, (yb - yt) * f * cos, angle, 4.0 * f, seen);
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
    double strange = 0;
    for (int side = 0; side < 4; side++) {
      EdgeProfiles profiles =
          new EdgeProfiles(
              source, overview, background, r, along[side], out[side], half[side], length[side]);
      strange += profiles.strangenessOutside() / 4;
      lines[side] = profiles.line();
      if (lines[side].inlierShare() < NEEDED_SHARE) {
        return Optional.empty();
      }
    }
    if (strange > STRANGE_OUTSIDE) {
      return Optional.empty();
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
}
