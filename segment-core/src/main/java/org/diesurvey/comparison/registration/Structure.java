package org.diesurvey.comparison.registration;

import java.util.Arrays;
import java.util.function.UnaryOperator;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.vision.ImageFilters;

/** What of a picture is layout: contrasts of a range of scales, free of light and tint. */
public final class Structure {
  private Structure() {}

  /** The same work on several pictures, at the same time. */
  public static GrayRaster[] each(UnaryOperator<GrayRaster> work, GrayRaster... of) {
    return Arrays.stream(of).parallel().map(work).toArray(GrayRaster[]::new);
  }

  /** Difference of two Gaussians; deviations in px. */
  public static GrayRaster band(GrayRaster in, double fine, double coarse) {
    GrayRaster a = fine > 0 ? ImageFilters.gaussian(in, fine) : in;
    GrayRaster b = ImageFilters.wideGaussian(in, coarse);
    float[] x = a.array();
    float[] y = b.array();
    float[] out = new float[x.length];
    for (int i = 0; i < x.length; i++) {
      out[i] = x[i] - y[i];
    }
    return GrayRaster.over(in.width(), in.height(), out);
  }

  /**
   * Band contrast over its own local strength, held within +-2: dim and bright places count alike.
   *
   * @param window deviation of the surroundings, px
   */
  static GrayRaster evened(GrayRaster in, double fine, double coarse, double window) {
    return even(band(in, fine, coarse), window);
  }

  /** Contrast over its own local strength, held within +-2; writes into the given raster. */
  public static GrayRaster even(GrayRaster band, double window) {
    float[] v = band.array();
    float[] square = new float[v.length];
    double mean = 0;
    for (int i = 0; i < v.length; i++) {
      square[i] = v[i] * v[i];
      mean += square[i];
    }
    mean /= v.length;
    float[] local =
        ImageFilters.wideGaussian(GrayRaster.over(band.width(), band.height(), square), window)
            .array();
    float floor = (float) (0.05 * mean + 1e-9);
    for (int i = 0; i < v.length; i++) {
      float s = v[i] / (float) Math.sqrt(Math.max(0, local[i]) + floor);
      v[i] = Math.max(-2, Math.min(2, s));
    }
    return band;
  }

  /** Differences of neighbours, (dx, dy) apart; 0 at the last column or row. */
  public static GrayRaster differences(GrayRaster in, int dx, int dy) {
    int w = in.width();
    int h = in.height();
    float[] v = in.array();
    float[] out = new float[w * h];
    for (int y = 0; y < h - dy; y++) {
      for (int x = 0; x < w - dx; x++) {
        out[y * w + x] = v[(y + dy) * w + x + dx] - v[y * w + x];
      }
    }
    return GrayRaster.over(w, h, out);
  }

  /** Logarithm of the strength of the finest contrasts: what is busy and what is calm. */
  static GrayRaster activity(GrayRaster in) {
    GrayRaster fine = band(in, 0, 1.5);
    float[] v = fine.array();
    double mean = 0;
    for (int i = 0; i < v.length; i++) {
      v[i] *= v[i];
      mean += v[i];
    }
    float floor = (float) (0.02 * mean / v.length + 1e-9);
    GrayRaster local = ImageFilters.gaussian(fine, 3);
    float[] out = local.array();
    for (int i = 0; i < out.length; i++) {
      out[i] = (float) Math.log(Math.max(0, out[i]) + floor);
    }
    return local;
  }

  /** Reduced by a whole factor. */
  public static GrayRaster reduced(GrayRaster in, int by) {
    int w = in.width() / by;
    int h = in.height() / by;
    float[] out = new float[w * h];
    float[] v = in.array();
    float share = 1f / (by * by);
    for (int y = 0; y < h * by; y++) {
      int o = (y / by) * w;
      int r = y * in.width();
      for (int x = 0; x < w * by; x++) {
        out[o + x / by] += v[r + x] * share;
      }
    }
    return GrayRaster.over(w, h, out);
  }
}
