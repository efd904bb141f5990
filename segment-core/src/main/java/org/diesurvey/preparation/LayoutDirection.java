package org.diesurvey.preparation;

import java.util.Arrays;
import java.util.OptionalDouble;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.raster.PixelRect;
import org.diesurvey.vision.ImageFilters;

/**
 * Rotation of a layout from its own edges, for photographs without a die edge: chip layouts are
 * drawn on right angles, so gradient directions pile up at four directions 90 degrees apart.
 */
final class LayoutDirection {
  /** Side of a window, px (own choice). */
  private static final int WINDOW_PX = 256;

  /** Windows along each side of the photograph (own choice). */
  private static final int WINDOWS_PER_SIDE = 6;

  /** Width of a bin of directions, degrees; their peak is interpolated (own choice). */
  private static final double BIN_DEG = 0.25;

  /** Photographs are turned by 15 degrees at most (own choice). */
  private static final int HALF_RANGE_BINS = (int) (15 / BIN_DEG);

  /**
   * Blur before differences are taken, px: on steeper edges they saturate along the nearer axis,
   * and the angle comes out wrong by up to a third.
   */
  private static final double BLUR_PX = 1.5;

  /** How far the peak must stand above the mean of the histogram to count as a direction. */
  private static final double PEAK_OVER_MEAN = 1.8;

  private LayoutDirection() {}

  /**
   * Rotation in degrees, positive clockwise as seen, within +-15; empty where no direction stands
   * out.
   */
  static OptionalDouble of(PixelSource source) {
    int bins = 2 * HALF_RANGE_BINS + 1;
    double[] histogram = new double[bins];
    float[] window = new float[WINDOW_PX * WINDOW_PX];
    int side = Math.min(WINDOW_PX, Math.min(source.width(), source.height()));
    for (int j = 0; j < WINDOWS_PER_SIDE; j++) {
      for (int i = 0; i < WINDOWS_PER_SIDE; i++) {
        int x = (int) ((source.width() - side) * (i + 0.5) / WINDOWS_PER_SIDE);
        int y = (int) ((source.height() - side) * (j + 0.5) / WINDOWS_PER_SIDE);
        source.readGray(new PixelRect(x, y, side, side), window);
        GrayRaster grey = GrayRaster.over(side, side, Arrays.copyOf(window, side * side));
        collect(ImageFilters.gaussian(grey, BLUR_PX).array(), side, histogram);
      }
    }
    return peak(histogram);
  }

  private static void collect(float[] g, int side, double[] histogram) {
    for (int y = 2; y < side - 2; y++) {
      for (int x = 2; x < side - 2; x++) {
        int at = y * side + x;
        double gx = difference(g, at, 1);
        double gy = difference(g, at, side);
        double magnitude = gx * gx + gy * gy;
        if (magnitude < 1e-4) {
          continue;
        }
        double angle = Math.toDegrees(Math.atan2(gy, gx));
        double folded = angle - 90 * Math.rint(angle / 90);
        int bin = (int) Math.rint(folded / BIN_DEG) + HALF_RANGE_BINS;
        if (bin >= 0 && bin < histogram.length) {
          histogram[bin] += Math.sqrt(magnitude);
        }
      }
    }
  }

  /** Fourth-order central difference, in grey per 4 px: lower orders pull angles to the axes. */
  private static double difference(float[] g, int at, int step) {
    double near = g[at + step] - g[at - step];
    double far = g[at + 2 * step] - g[at - 2 * step];
    return (8 * near - far) / 3;
  }

  private static OptionalDouble peak(double[] h) {
    int n = h.length;
    double[] smooth = new double[n];
    double mean = 0;
    for (int i = 0; i < n; i++) {
      double sum = 0;
      double weight = 0;
      for (int k = -6; k <= 6; k++) {
        if (i + k >= 0 && i + k < n) {
          double w = 7 - Math.abs(k);
          sum += w * h[i + k];
          weight += w;
        }
      }
      smooth[i] = sum / weight;
      mean += smooth[i] / n;
    }
    int best = 1;
    for (int i = 1; i < n - 1; i++) {
      if (smooth[i] > smooth[best]) {
        best = i;
      }
    }
    if (mean <= 0 || smooth[best] < PEAK_OVER_MEAN * mean || best == 1 || best == n - 2) {
      return OptionalDouble.empty();
    }
    double a = smooth[best - 1];
    double b = smooth[best];
    double c = smooth[best + 1];
    double shift = a - 2 * b + c == 0 ? 0 : 0.5 * (a - c) / (a - 2 * b + c);
    return OptionalDouble.of((best + shift - HALF_RANGE_BINS) * BIN_DEG);
  }
}
