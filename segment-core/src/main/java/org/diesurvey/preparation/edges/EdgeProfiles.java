package org.diesurvey.preparation.edges;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.raster.PixelRect;

/**
 * Measures one side of the die in the full photograph: profiles across the side, each read along
 * the line from the colour just outside to the colour just inside, and a straight line through
 * their steps.
 */
final class EdgeProfiles {
  /** Profiles along a side (own choice). */
  private static final int PLACES = 160;

  /** Share of the side that is measured; corners are often broken. */
  private static final double MEASURED_SHARE = 0.92;

  /** Edge points within this many px of the line count as on it: sawing chips the edge. */
  private static final double TOLERANCE_PX = 4;

  /** The same as a share of the side, for large photographs. */
  private static final double TOLERANCE_SHARE = 0.004;

  /** How often the inner half of the places is left out to find the outline of a broken side. */
  private static final int HALVINGS = 2;

  private final PixelSource source;
  private final Overview overview;
  private final CoarseDieRectangle rough;
  private final double[] along;
  private final double[] out;
  private final double half;
  private final double length;
  private final float[] background;
  private final float[] outside;
  private final float[] inside;

  /**
   * @param background colour of the picture's frame, used where the place outside is not in it
   * @param along unit vector along the side
   * @param out unit vector across it, away from the die
   * @param half distance of the side from the rectangle's middle, px
   * @param length of the side, px
   */
  EdgeProfiles(
      PixelSource source,
      Overview overview,
      float[] background,
      CoarseDieRectangle rough,
      double[] along,
      double[] out,
      double half,
      double length) {
    this.source = source;
    this.overview = overview;
    this.background = background;
    this.rough = rough;
    this.along = along;
    this.out = out;
    this.half = half;
    this.length = length;
    double deep = 2.0 * overview.factor() + rough.slackPx();
    float[] seen = colour(half + deep);
    this.outside = seen.length == 0 ? background : seen;
    double most = 0.6 * half;
    this.inside =
        colour(
            half - Math.min(most, deep),
            half - Math.min(most, 1.6 * deep),
            half - Math.min(most, 2.4 * deep),
            half - Math.min(most, 3.5 * deep));
  }

  /**
   * Offset across the side, positive outward, as a function of the place from the side's middle.
   *
   * @param looseness factor of the tolerance, 1 for sawn edges, more for broken ones
   */
  EdgeLine line(double looseness) {
    int reach = (int) Math.ceil(rough.slackPx());
    List<double[]> points = new ArrayList<>();
    int inFrame = 0;
    for (int i = 0; i < PLACES; i++) {
      double t = place(i);
      double px = rough.cx() + out[0] * half + along[0] * t;
      double py = rough.cy() + out[1] * half + along[1] * t;
      double[] profile = profile(px, py, reach);
      if (profile.length == 0) {
        continue;
      }
      inFrame++;
      double edge = step(profile);
      if (!Double.isNaN(edge)) {
        points.add(new double[] {t, edge - reach});
      }
    }
    int sampled = Math.max(inFrame, PLACES / 2);
    double tolerance = looseness * Math.max(TOLERANCE_PX, TOLERANCE_SHARE * length);
    EdgeLine line = EdgeLine.fit(points, sampled, tolerance);
    return looseness > 1 ? envelope(points, line, sampled, tolerance) : line;
  }

  /**
   * The line along the outermost places: chips only ever take away. Its share of places and its
   * scatter stay those of all.
   */
  private static EdgeLine envelope(
      List<double[]> points, EdgeLine all, int sampled, double tolerance) {
    EdgeLine line = all;
    for (int i = 0; i < HALVINGS; i++) {
      double offset = line.offset();
      double slope = line.slope();
      points = points.stream().filter(p -> p[1] >= offset + slope * p[0]).toList();
      EdgeLine outer = EdgeLine.fit(points, sampled, tolerance);
      if (outer.inliers() < 8) {
        break;
      }
      line = outer;
    }
    return new EdgeLine(
        line.offset(), line.slope(), all.inlierShare(), all.residualPx(), all.inliers());
  }

  /** Whether enough of the strip just inside the side lies in the picture. */
  boolean inPicture() {
    return inside.length > 0;
  }

  /** Distance of the colour just outside from the picture's frame, over the step into the die. */
  double strangenessOutside() {
    double off = 0;
    double step = 1e-9;
    for (int ch = 0; ch < 3; ch++) {
      off += Math.pow(outside[ch] - background[ch], 2);
      step += Math.pow(inside[ch] - outside[ch], 2);
    }
    return Math.sqrt(off / step);
  }

  private double place(int i) {
    return ((i + 0.5) / PLACES - 0.5) * MEASURED_SHARE * length;
  }

  /**
   * Median colour of the overview along lines parallel to the side; empty if they are outside. One
   * line alone may run along a strip of the seal ring.
   */
  private float[] colour(double... distances) {
    double[][] v = new double[3][PLACES * distances.length];
    int n = 0;
    for (double distance : distances) {
      for (int i = 0; i < PLACES; i++) {
        double t = place(i);
        int x = (int) ((rough.cx() + out[0] * distance + along[0] * t) / overview.factor());
        int y = (int) ((rough.cy() + out[1] * distance + along[1] * t) / overview.factor());
        if (x < 0 || y < 0 || x >= overview.width() || y >= overview.height()) {
          continue;
        }
        for (int ch = 0; ch < 3; ch++) {
          v[ch][n] = overview.plane(ch)[y * overview.width() + x];
        }
        n++;
      }
    }
    if (n < PLACES * distances.length / 3) {
      return new float[0];
    }
    float[] colour = new float[3];
    for (int ch = 0; ch < 3; ch++) {
      colour[ch] = (float) EdgeLine.median(Arrays.copyOf(v[ch], n));
    }
    return colour;
  }

  /** Die-likeness from {@code reach} px inside to {@code reach} px outside a place. */
  private double[] profile(double px, double py, int reach) {
    int x0 = (int) Math.floor(px) - reach - 3;
    int y0 = (int) Math.floor(py) - reach - 3;
    int side = 2 * reach + 7;
    if (x0 < 0 || y0 < 0 || x0 + side > source.width() || y0 + side > source.height()) {
      return shortProfile(px, py, reach);
    }
    int[] rgb = new int[side * side];
    source.readRgb(new PixelRect(x0, y0, side, side), rgb);
    double[] profile = new double[2 * reach + 1];
    for (int k = 0; k <= 2 * reach; k++) {
      double sum = 0;
      for (int j = -2; j <= 2; j++) {
        double x = px + out[0] * (k - reach) + along[0] * j - x0;
        double y = py + out[1] * (k - reach) + along[1] * j - y0;
        sum += likeness(rgb, side, x, y);
      }
      profile[k] = sum / 5;
    }
    return profile;
  }

  /**
   * A profile near the photo's frame: pixels beyond it repeat the last one seen; empty if the place
   * is outside.
   */
  private double[] shortProfile(double px, double py, int reach) {
    double[] profile = new double[2 * reach + 1];
    int[] one = new int[1];
    double last = Double.NaN;
    int seen = 0;
    for (int k = 0; k <= 2 * reach; k++) {
      int x = (int) Math.floor(px + out[0] * (k - reach));
      int y = (int) Math.floor(py + out[1] * (k - reach));
      if (x >= 0 && y >= 0 && x < source.width() && y < source.height()) {
        source.readRgb(new PixelRect(x, y, 1, 1), one);
        last = likeness(one[0]);
        seen++;
      }
      profile[k] = last;
    }
    return seen < reach || Double.isNaN(profile[0]) ? new double[0] : profile;
  }

  /**
   * Likeness between pixel centres, which lie at +0.5: the whole pixel around a place would put an
   * edge along the pixel rows off by up to half a pixel.
   */
  private double likeness(int[] rgb, int side, double x, double y) {
    int column = (int) Math.floor(x - 0.5);
    int row = (int) Math.floor(y - 0.5);
    double fx = x - 0.5 - column;
    double fy = y - 0.5 - row;
    int at = row * side + column;
    double upper = (1 - fx) * likeness(rgb[at]) + fx * likeness(rgb[at + 1]);
    double lower = (1 - fx) * likeness(rgb[at + side]) + fx * likeness(rgb[at + side + 1]);
    return (1 - fy) * upper + fy * lower;
  }

  /** 0 at the colour just outside, 1 at the colour just inside. */
  private double likeness(int rgb) {
    double dot = 0;
    double norm = 1e-9;
    for (int ch = 0; ch < 3; ch++) {
      double v = ((rgb >> (16 - 8 * ch)) & 0xff) / 255.0;
      double axis = inside[ch] - outside[ch];
      dot += (v - outside[ch]) * axis;
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
