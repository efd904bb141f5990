package org.diesurvey.comparison.registration;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.stream.IntStream;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.vision.CrossCorrelation;

/**
 * Finds squares of one raster in another of the same frame, by correlation coefficients over a
 * range of shifts, with a parabola through the peak for parts of a pixel.
 */
public final class PatchMatcher {
  private PatchMatcher() {}

  /**
   * @param a structure of the first die
   * @param b structure of the second, carried to the first one's frame
   * @param side of a square, px
   * @param step between squares, px
   * @param reach largest shift searched, px
   * @param usable one flag a pixel of the frame: whether b shows it; null for all
   * @param least strength (root mean square) of squares that are tried
   */
  static List<PatchMatch> match(
      GrayRaster a, GrayRaster b, int side, int step, int reach, boolean[] usable, double least) {
    int margin = reach + side / 2 + 1;
    int columns = Math.max(0, (a.width() - 2 * margin) / step + 1);
    int rows = Math.max(0, (a.height() - 2 * margin) / step + 1);
    List<PatchMatch> found =
        IntStream.range(0, columns * rows)
            .parallel()
            .mapToObj(
                i -> {
                  int x = margin + (i % columns) * step;
                  int y = margin + (i / columns) * step;
                  return usable(usable, a.width(), x, y, side / 2)
                      ? at(a, b, x, y, side, reach, least)
                      : null;
                })
            .toList();
    List<PatchMatch> out = new ArrayList<>();
    found.stream().filter(Objects::nonNull).forEach(out::add);
    return out;
  }

  private static boolean usable(boolean[] usable, int width, int x, int y, int half) {
    return usable == null
        || usable[(y - half) * width + x - half]
            && usable[(y + half) * width + x + half]
            && usable[(y - half) * width + x + half]
            && usable[(y + half) * width + x - half];
  }

  /** One square around (x, y); null if it shows too little. */
  static PatchMatch at(
      GrayRaster a, GrayRaster b, int x, int y, int side, int reach, double least) {
    int half = side / 2;
    GrayRaster what = cut(a, x - half, y - half, side, side);
    if (strength(what) < least) {
      return null;
    }
    int wide = side + 2 * reach;
    GrayRaster where = cut(b, x - half - reach, y - half - reach, wide, wide);
    if (strength(where) < 0.3 * least) {
      return null;
    }
    GrayRaster c = CrossCorrelation.coefficients(where, what);
    int best = 0;
    float[] v = c.array();
    for (int i = 1; i < v.length; i++) {
      if (v[i] > v[best]) {
        best = i;
      }
    }
    int bx = best % c.width();
    int by = best / c.width();
    double other = -1;
    for (int i = 0; i < v.length; i++) {
      if (Math.abs(i % c.width() - bx) > 2 || Math.abs(i / c.width() - by) > 2) {
        other = Math.max(other, v[i]);
      }
    }
    double sx = bx > 0 && bx < c.width() - 1 ? top(v[best - 1], v[best], v[best + 1]) : 0;
    double sy =
        by > 0 && by < c.height() - 1 ? top(v[best - c.width()], v[best], v[best + c.width()]) : 0;
    double score = Float.isFinite(v[best]) ? v[best] : -1;
    return new PatchMatch(x, y, bx - reach + sx, by - reach + sy, score, score - other);
  }

  /** Top of the parabola through three values, in steps from the middle one. */
  private static double top(double before, double at, double after) {
    double bend = before - 2 * at + after;
    return bend < -1e-9 ? Math.max(-0.5, Math.min(0.5, 0.5 * (before - after) / bend)) : 0;
  }

  public static GrayRaster cut(GrayRaster in, int x, int y, int w, int h) {
    float[] out = new float[w * h];
    for (int r = 0; r < h; r++) {
      int yy = Math.max(0, Math.min(in.height() - 1, y + r));
      for (int c = 0; c < w; c++) {
        int xx = Math.max(0, Math.min(in.width() - 1, x + c));
        out[r * w + c] = in.array()[yy * in.width() + xx];
      }
    }
    return GrayRaster.over(w, h, out);
  }

  private static double strength(GrayRaster in) {
    double sum = 0;
    double square = 0;
    for (float v : in.array()) {
      sum += v;
      square += (double) v * v;
    }
    double n = in.array().length;
    return Math.sqrt(Math.max(0, square / n - sum * sum / n / n));
  }
}
