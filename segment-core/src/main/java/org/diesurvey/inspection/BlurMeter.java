package org.diesurvey.inspection;

import java.util.Arrays;
import java.util.OptionalDouble;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.vision.Sharpness;

/**
 * Blur of the edges in a window, as the standard deviation of a Gaussian in px.
 *
 * <p>A step blurred by sigma has its steepest gradient A / (sqrt(2 pi) sigma). After a further blur
 * by a or b the ratio of both gradients is R = sqrt((sigma2 + b2) / (sigma2 + a2)), free of the
 * step's height A, so sigma2 = (b2 - R2 a2) / (R2 - 1): S. Zhuo and T. Sim, "Defocus map estimation
 * from a single image", Pattern Recognition 44 (2011) 1852-1858 (from memory). Differs from the
 * paper: both pictures are blurred, which quiets noise; the noise expected in both is taken out;
 * the strongest edges of a window are summed up, instead of a value at every edge.
 */
final class BlurMeter {
  private static final double FINE_PX = 0.7;
  private static final double COARSE_PX = 1.5;

  /** Variance of the two-pixel difference as a blur, px2: that of a box 2 px wide. */
  private static final double DIFFERENCE_PX2 = 1 / 3.0;

  /** Variance of a pixel's own square, px2, which belongs to the camera and not to the blur. */
  private static final double PIXEL_PX2 = 1 / 12.0;

  /** Share of the places whose edges count: the strongest. */
  private static final double STRONGEST = 0.06;

  /** Edges must stand this far out of the gradient that noise alone makes. */
  private static final double ABOVE_NOISE = 5;

  /** Fewer edge places than this say nothing. */
  private static final int LEAST_PLACES = 24;

  /** Above this the ratio comes near 1 and the blur cannot be told any more, px. */
  static final double LARGEST_PX = 6;

  private BlurMeter() {}

  /**
   * @param window grey, 0 to 1
   * @param noise standard deviation of the pixel noise
   * @return blur in px, 0 to {@link #LARGEST_PX}; empty where no edge stands out of the noise
   */
  static OptionalDouble blurPx(GrayRaster window, double noise) {
    int w = window.width();
    int h = window.height();
    float[] fine = Sharpness.gradient(window, FINE_PX).array();
    float[] coarse = Sharpness.gradient(window, COARSE_PX).array();
    float[] sorted = coarse.clone();
    Arrays.sort(sorted);
    double noiseFine = gradientNoise(noise, FINE_PX);
    double noiseCoarse = gradientNoise(noise, COARSE_PX);
    double strong =
        Math.max(
            sorted[(int) ((1 - STRONGEST) * (sorted.length - 1))],
            ABOVE_NOISE * Math.max(noiseCoarse, 1e-4));
    double sumFine = 0;
    double sumCoarse = 0;
    int places = 0;
    int margin = (int) Math.ceil(3 * COARSE_PX);
    for (int y = margin; y < h - margin; y++) {
      for (int i = y * w + margin; i < y * w + w - margin; i++) {
        float c = coarse[i];
        boolean ridge =
            c >= coarse[i - 1] && c >= coarse[i + 1] || c >= coarse[i - w] && c >= coarse[i + w];
        if (c >= strong && ridge) {
          sumFine += fine[i] * fine[i];
          sumCoarse += c * c;
          places++;
        }
      }
    }
    if (places < LEAST_PLACES) {
      return OptionalDouble.empty();
    }
    // Two components of the gradient each carry the noise.
    double f = sumFine / places - 2 * noiseFine * noiseFine;
    double c = sumCoarse / places - 2 * noiseCoarse * noiseCoarse;
    return OptionalDouble.of(sigma(f / c));
  }

  private static double sigma(double ratioSquared) {
    double a2 = FINE_PX * FINE_PX + DIFFERENCE_PX2 + PIXEL_PX2;
    double b2 = COARSE_PX * COARSE_PX + DIFFERENCE_PX2 + PIXEL_PX2;
    double most = (LARGEST_PX * LARGEST_PX + b2) / (LARGEST_PX * LARGEST_PX + a2);
    if (ratioSquared <= most) {
      return LARGEST_PX;
    }
    return Math.sqrt(Math.max(0, (b2 - ratioSquared * a2) / (ratioSquared - 1)));
  }

  /**
   * Standard deviation of one gradient component of white noise after a Gaussian blur and a
   * difference over 2 px: n / sqrt(8 pi s4) with the variances of both joined.
   */
  private static double gradientNoise(double noise, double sigmaPx) {
    double s2 = sigmaPx * sigmaPx + DIFFERENCE_PX2 / 2;
    return noise / (Math.sqrt(8 * Math.PI) * s2);
  }
}
