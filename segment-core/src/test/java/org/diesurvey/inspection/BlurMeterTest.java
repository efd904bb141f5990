package org.diesurvey.inspection;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.diesurvey.raster.GrayRaster;
import org.diesurvey.vision.Sharpness;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class BlurMeterTest {
  /** Standard normal distribution by Abramowitz and Stegun 26.2.17 (coefficients from memory). */
  private static double phi(double z) {
    double t = 1 / (1 + 0.2316419 * Math.abs(z));
    double tail =
        Math.exp(-z * z / 2)
            / Math.sqrt(2 * Math.PI)
            * t
            * (0.319381530
                + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
    return z > 0 ? 1 - tail : tail;
  }

  /** Broad stripes with edges blurred by a known Gaussian, at an angle. */
  private static GreyPhoto stripes(double sigma, double contrast, double angleDeg, double noise) {
    double c = Math.cos(Math.toRadians(angleDeg));
    double s = Math.sin(Math.toRadians(angleDeg));
    return GreyPhoto.of(
            128,
            128,
            (x, y) -> {
              double across = c * x + s * y + 4000;
              double at = across % 60 - 15;
              double rise = phi(at / sigma);
              double fall = phi((at - 30) / sigma);
              return 0.45 + contrast * (rise - fall - 0.5);
            })
        .noisy(noise, 4);
  }

  private static double blur(GreyPhoto photo, double noise) {
    GrayRaster window = new GrayRaster(128, 128);
    photo.readGray(new org.diesurvey.raster.PixelRect(0, 0, 128, 128), window.array());
    return BlurMeter.blurPx(window, noise).orElseThrow();
  }

  @ParameterizedTest(name = "sigma {0} px, contrast {1}, {2} degrees, noise {3}")
  @CsvSource({
    "0.8, 0.5, 20, 0", "1.2, 0.5, 20, 0", "2, 0.5, 20, 0", "3, 0.5, 20, 0", "4, 0.5, 20, 0",
    "2, 0.1, 20, 0", "2, 0.5, 0, 0", "2, 0.5, 45, 0", "1.2, 0.5, 70, 0.01", "2, 0.5, 20, 0.01"
  })
  void knownBlur_isFoundWithin15Percent(
      double sigma, double contrast, double angleDeg, double noise) {
    assertEquals(sigma, blur(stripes(sigma, contrast, angleDeg, noise), noise), 0.15 * sigma);
  }

  /** The variance of the Laplacian, a common focus measure, orders one scene in the same way. */
  @Test
  void orderOfBlur_isThatOfTheLaplacianVariance_butContrastDoesNotMatter() {
    double last = 0;
    double lastVariance = Double.MAX_VALUE;
    for (double sigma : new double[] {0.8, 1.2, 1.8, 2.6, 3.8}) {
      GreyPhoto photo = stripes(sigma, 0.5, 20, 0);
      double here = blur(photo, 0);
      double variance = Sharpness.laplacianVariance(photo.raster());
      assertTrue(here > last && variance < lastVariance, "sigma " + sigma);
      last = here;
      lastVariance = variance;
    }
    GreyPhoto strong = stripes(1.5, 0.6, 20, 0);
    GreyPhoto weak = stripes(1.5, 0.2, 20, 0);
    double ratio =
        Sharpness.laplacianVariance(strong.raster()) / Sharpness.laplacianVariance(weak.raster());
    assertEquals(9, ratio, 0.5);
    assertEquals(blur(strong, 0), blur(weak, 0), 0.05);
  }

  @Test
  void noiseAlone_hasNoBlur() {
    GreyPhoto noise = GreyPhoto.of(128, 128, (x, y) -> 0.5).noisy(0.02, 8);
    assertTrue(BlurMeter.blurPx(noise.raster(), 0.02).isEmpty());
  }
}
