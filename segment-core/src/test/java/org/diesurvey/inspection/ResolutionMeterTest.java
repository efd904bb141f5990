package org.diesurvey.inspection;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.diesurvey.vision.PowerSpectrum;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ResolutionMeterTest {
  private static Resolution resolution(GreyPhoto photo) {
    FieldGrid grid = FieldGrid.over(photo, 16);
    ResolutionMeter meter = new ResolutionMeter(grid.sidePx());
    for (int c = 0; c < grid.count(); c++) {
      meter.add(grid.read(photo, c));
    }
    return meter.resolution(1 / 255.0);
  }

  private static GreyPhoto flat() {
    return GreyPhoto.of(512, 512, (x, y) -> 0.5);
  }

  /**
   * White texture of standard deviation s, blurred by sigma, with noise n: signal and noise are
   * equal where s2 exp(-(2 pi sigma f)2) = n2.
   */
  @ParameterizedTest(name = "sigma {0} px, texture {1}, noise {2}")
  @CsvSource({"1.5, 0.15, 0.004", "2, 0.15, 0.004", "3, 0.15, 0.004", "2, 0.15, 0.02"})
  void whereTextureMeetsNoise_isFoundWithin10Percent(double sigma, double texture, double noise) {
    GreyPhoto photo = flat().noisy(texture, 1).blurred(sigma).noisy(noise, 2);
    double n = Math.hypot(noise, 0.29 / 255);
    double expected = 2 * Math.PI * sigma / Math.sqrt(2 * Math.log(texture / n));
    Resolution found = resolution(photo);
    assertEquals(expected, found.finestPeriodPx(), 0.1 * expected);
  }

  @Test
  void unblurredTexture_goesDownToTheSampling() {
    assertTrue(resolution(GreyPhoto.of(GreyPhoto.clean(7, 1))).atSamplingLimit());
  }

  /** Parseval: white noise has its variance in every ring. */
  @Test
  void whiteNoise_hasItsVarianceAtAllFrequencies() {
    double[] power = PowerSpectrum.radial(flat().part(0, 0, 256, 256).noisy(0.1, 3).raster());
    for (int first = 32; first < power.length; first += 32) {
      double mean = 0;
      for (int i = first; i < first + 32; i++) {
        mean += power[i] / 32;
      }
      assertEquals(0.01, mean, 0.0008, "rings from " + first);
    }
  }
}
