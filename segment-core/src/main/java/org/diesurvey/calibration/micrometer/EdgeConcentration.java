package org.diesurvey.calibration.micrometer;

import java.util.Arrays;
import org.diesurvey.calibration.micrometer.Lattice.Mark;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.raster.PixelPoint;
import org.diesurvey.vision.ImageFilters;

/**
 * How much of a picture's structure belongs to a row of lines. A micrometer is engraved on an empty
 * plate; a row of lines on a die stands among structures of every kind.
 */
final class EdgeConcentration {
  /** An edge counts from this share of the strength of the lines' own edges on. */
  private static final double STRONG = 0.5;

  /** Blur against noise, share of the lines' width. */
  private static final double BLUR_OF_WIDTH = 0.2;

  /** Every second row and column is enough. */
  private static final int STRIDE = 2;

  private EdgeConcentration() {}

  /** Share of the strong edges that lie in the rectangle of the lines, 0 to 1. */
  static double shareInside(GrayRaster photo, Candidate scale) {
    GrayRaster smooth =
        ImageFilters.gaussian(photo, Math.max(1, BLUR_OF_WIDTH * scale.lineWidth()));
    double left = Double.MAX_VALUE;
    double right = -Double.MAX_VALUE;
    double top = Double.MAX_VALUE;
    double bottom = -Double.MAX_VALUE;
    for (Mark m : scale.lattice().marks()) {
      left = Math.min(left, m.stroke().u() - m.stroke().width() - 2);
      right = Math.max(right, m.stroke().u() + m.stroke().width() + 2);
      top = Math.min(top, m.stroke().top());
      bottom = Math.max(bottom, m.stroke().bottom());
    }
    // The ends of the lines and a base line at their feet belong to the scale.
    double margin = 0.25 * scale.lattice().stepPx() + 6;
    float[] strength = new float[(smooth.width() / STRIDE + 1) * (smooth.height() / STRIDE + 1)];
    boolean[] inside = new boolean[strength.length];
    float[] own = new float[strength.length];
    int n = 0;
    int owned = 0;
    for (int y = 1; y < smooth.height() - 1; y += STRIDE) {
      for (int x = 1; x < smooth.width() - 1; x += STRIDE) {
        float gx = smooth.get(x + 1, y) - smooth.get(x - 1, y);
        float gy = smooth.get(x, y + 1) - smooth.get(x, y - 1);
        strength[n] = (float) Math.sqrt(gx * gx + gy * gy);
        PixelPoint p = scale.view().fromPhoto(x + 0.5, y + 0.5);
        inside[n] =
            p.x() >= left && p.x() <= right && p.y() >= top - margin && p.y() <= bottom + margin;
        if (inside[n]) {
          own[owned++] = strength[n];
        }
        n++;
      }
    }
    float[] sorted = Arrays.copyOf(own, owned);
    Arrays.sort(sorted);
    double limit = owned == 0 ? 0 : STRONG * sorted[(int) (0.97 * (owned - 1))];
    int all = 0;
    int in = 0;
    for (int i = 0; i < n; i++) {
      if (strength[i] >= limit) {
        all++;
        in += inside[i] ? 1 : 0;
      }
    }
    return all == 0 ? 0 : in / (double) all;
  }
}
