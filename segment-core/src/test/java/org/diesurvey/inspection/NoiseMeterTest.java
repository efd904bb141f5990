package org.diesurvey.inspection;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import org.diesurvey.raster.GrayRaster;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class NoiseMeterTest {
  private static GreyPhoto die;

  @BeforeAll
  static void draw() {
    die = GreyPhoto.of(GreyPhoto.clean(7, 1)).blurred(1.2);
  }

  static Noise noise(GreyPhoto photo) {
    FieldGrid grid = FieldGrid.over(photo, 16);
    NoiseMeter meter = new NoiseMeter();
    for (int c = 0; c < grid.count(); c++) {
      meter.add(grid.read(photo, c));
    }
    return meter.noise();
  }

  /** The layout is blurred first, so that all noise is the known one; 8 bits add 0.29 levels. */
  @ParameterizedTest(name = "{0} levels")
  @ValueSource(doubles = {1, 2, 4, 8})
  void knownNoiseOnADrawnDie_isFoundWithin15Percent(double levels) {
    double found = 255 * noise(die.copy().noisy(levels / 255, 5)).sigma();
    assertEquals(Math.hypot(levels, 0.29), found, 0.15 * levels);
  }

  /** Immerkaer 1996: the sum of |I * N| over the inside, N written out. */
  @Test
  void sigmaOfABlock_isThePublishedFormula() {
    double[][] n = {{1, -2, 1}, {-2, 4, -2}, {1, -2, 1}};
    SplittableRandom random = new SplittableRandom(2);
    GrayRaster r = new GrayRaster(40, 40);
    for (int i = 0; i < r.array().length; i++) {
      r.array()[i] = random.nextFloat();
    }
    double sum = 0;
    for (int y = 6; y < 36; y++) {
      for (int x = 5; x < 35; x++) {
        double response = 0;
        for (int j = -1; j <= 1; j++) {
          for (int i = -1; i <= 1; i++) {
            response += n[j + 1][i + 1] * r.get(x + i, y + j);
          }
        }
        sum += Math.abs(response);
      }
    }
    double expected = Math.sqrt(Math.PI / 2) / (6 * 30 * 30) * sum;
    assertEquals(expected, NoiseMeter.sigma(r, 4, 5, 32), 1e-4);
  }

  @Test
  void noiseThatGrowsWithLight_isToldByLevel() {
    SplittableRandom random = new SplittableRandom(9);
    GreyPhoto steps =
        GreyPhoto.of(
            512,
            512,
            (x, y) -> {
              double grey = 0.1 + 0.25 * (int) (x / 128);
              return grey + 0.03 * Math.sqrt(grey) * random.nextGaussian();
            });
    Noise noise = noise(steps);
    assertEquals(4, noise.levels().size());
    double dark = noise.levels().get(0).sigma();
    double bright = noise.levels().get(3).sigma();
    assertEquals(Math.sqrt(0.85 / 0.1), bright / dark, 0.4);
    assertTrue(noise.sigma() < 1.2 * dark, "the quietest place counts: " + noise.sigma());
  }
}
