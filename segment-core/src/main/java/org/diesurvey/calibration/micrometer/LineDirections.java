package org.diesurvey.calibration.micrometer;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.diesurvey.raster.GrayRaster;

/**
 * Directions in which a picture has straight edges: a vote of all gradients, weighted by their
 * squares, so that noise and dirt, which have no direction, spread evenly.
 */
final class LineDirections {
  private static final int BINS = 720;
  private static final double BIN_DEG = 180.0 / BINS;

  /** Peaks nearer than this are one, degrees. */
  private static final double APART_DEG = 4;

  /** A peak below this share of the highest is no direction. */
  private static final double LEAST_SHARE = 0.12;

  private static final int MOST = 4;

  private LineDirections() {}

  /**
   * Directions across edges, strongest first, degrees clockwise from the x axis, -90 to 90; at most
   * six. A direction at right angles to the strongest is always among them, because a long base
   * line can outweigh the short division lines that stand on it.
   *
   * @param smooth the photograph, blurred slightly
   */
  static List<Double> across(GrayRaster smooth) {
    double[] votes = smoothed(votes(smooth));
    record Peak(double deg, double height) {}
    List<Peak> peaks = new ArrayList<>();
    for (int i = 0; i < BINS; i++) {
      double before = votes[(i + BINS - 1) % BINS];
      double after = votes[(i + 1) % BINS];
      if (votes[i] > before && votes[i] >= after) {
        double bend = before - 2 * votes[i] + after;
        double shift = bend < 0 ? 0.5 * (before - after) / bend : 0;
        peaks.add(new Peak((i + 0.5 + shift) * BIN_DEG - 90, votes[i]));
      }
    }
    peaks.sort(Comparator.comparingDouble(Peak::height).reversed());
    List<Double> found = new ArrayList<>();
    for (Peak p : peaks) {
      if (found.size() < MOST
          && p.height >= LEAST_SHARE * peaks.get(0).height
          && found.stream().allMatch(f -> apart(f, p.deg) >= APART_DEG)) {
        found.add(p.deg);
      }
    }
    for (int i = 0; i < Math.min(2, found.size()); i++) {
      double turned = found.get(i) > 0 ? found.get(i) - 90 : found.get(i) + 90;
      if (found.stream().allMatch(f -> apart(f, turned) >= APART_DEG)) {
        found.add(turned);
      }
    }
    return found;
  }

  /** Angle between two undirected directions, 0 to 90 degrees. */
  static double apart(double aDeg, double bDeg) {
    double d = Math.abs(aDeg - bDeg) % 180;
    return Math.min(d, 180 - d);
  }

  private static double[] votes(GrayRaster in) {
    int w = in.width();
    float[] v = in.array();
    double[] votes = new double[BINS];
    for (int y = 1; y < in.height() - 1; y++) {
      for (int x = 1; x < w - 1; x++) {
        int i = y * w + x;
        // Weights 3, 10, 3 after Scharr 2000 (from memory): a gradient that hardly turns with the
        // grid.
        double gx =
            3 * (v[i - w + 1] - v[i - w - 1] + v[i + w + 1] - v[i + w - 1])
                + 10 * (v[i + 1] - v[i - 1]);
        double gy =
            3 * (v[i + w - 1] - v[i - w - 1] + v[i + w + 1] - v[i - w + 1])
                + 10 * (v[i + w] - v[i - w]);
        double square = gx * gx + gy * gy;
        if (square > 0) {
          double deg = Math.toDegrees(Math.atan2(gy, gx)) + 90;
          deg = deg < 0 ? deg + 180 : deg >= 180 ? deg - 180 : deg;
          votes[Math.min(BINS - 1, (int) (deg / BIN_DEG))] += square;
        }
      }
    }
    return votes;
  }

  private static double[] smoothed(double[] votes) {
    double[] out = new double[BINS];
    for (int i = 0; i < BINS; i++) {
      for (int k = -8; k <= 8; k++) {
        out[i] += votes[(i + k + BINS) % BINS] * Math.exp(-k * k / 12.5);
      }
    }
    return out;
  }
}
