package org.diesurvey.features;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** Curves of a known pattern: for a cosine of period P the autocorrelation is cos(2 pi lag / P). */
class LagCurveTest {
  private static LagCurve cosine(double periodPx, double noiseShare) {
    double[] zero = new double[Level.ALL.length];
    float[] products = new float[LagCurve.size()];
    double pixels = 64 * 64;
    for (int l = 0; l < zero.length; l++) {
      double n = pixels / Math.pow(Level.ALL[l].reduction(), 2);
      zero[l] = n * (l == 0 ? 1 + noiseShare : 1);
    }
    int i = 0;
    for (Level level : Level.ALL) {
      double n = pixels / Math.pow(level.reduction(), 2);
      for (int k = 0; k < level.lags(); k++, i++) {
        products[i] = (float) (n * Math.cos(2 * Math.PI * LagCurve.lagPx(i) / periodPx));
      }
    }
    LagCurve c = new LagCurve();
    c.fill(zero, products, pixels);
    return c;
  }

  @Test
  void lags_runWithoutAGapToAFewHundredPixels() {
    assertEquals(60, LagCurve.size());
    for (int i = 1; i < LagCurve.size(); i++) {
      float step = LagCurve.lagPx(i) - LagCurve.lagPx(i - 1);
      assertTrue(step > 0 && step <= 8, "at " + i);
    }
    assertEquals(1, LagCurve.lagPx(0));
    assertEquals(192, LagCurve.lagPx(LagCurve.size() - 1));
  }

  @Test
  void curve_isTheAutocorrelation() {
    LagCurve c = cosine(40, 0);
    // The height at lag 0 is taken from a parabola: exact to the fourth order, here 0.03 %.
    for (int i = 0; i < LagCurve.size(); i++) {
      assertEquals(Math.cos(2 * Math.PI * LagCurve.lagPx(i) / 40), c.at(i), 0.01, "lag " + i);
    }
  }

  /** White noise of the signal's own strength adds to lag 0 only and must change nothing. */
  @Test
  void whiteNoise_doesNotLowerTheCurve() {
    LagCurve clean = cosine(40, 0);
    LagCurve noisy = cosine(40, 1);
    for (int i = 0; i < 24; i++) {
      assertEquals(clean.at(i), noisy.at(i), 0.01);
    }
  }

  /** Period 20 px at 0.5 um/px is 10 um: the octave 6.4 to 12.8 um holds the peak, rise 2. */
  @Test
  void peak_standsInTheOctaveOfThePeriod() {
    LagCurve c = cosine(20, 0);
    assertEquals(2, c.peak(3, LagCurve.Ranges.at(0.5)), 0.05);
    assertEquals(0, c.peak(2, LagCurve.Ranges.at(0.5)), 1e-6);
  }

  @Test
  void octaveFinerThanTheSampling_isAbsent() {
    LagCurve c = cosine(20, 0);
    assertTrue(Float.isNaN(c.peak(0, LagCurve.Ranges.at(2))));
    assertTrue(Float.isNaN(c.persistence(0, LagCurve.Ranges.at(6))));
    assertTrue(Float.isNaN(c.mean(0, LagCurve.Ranges.at(6))));
    assertTrue(!Float.isNaN(c.peak(3, LagCurve.Ranges.at(2))));
  }

  /** A cosine is one half at a sixth of its period: 60 px at 0.5 um/px give 5 um. */
  @Test
  void halfWidth_isASixthOfThePeriodOfACosine() {
    assertEquals(Math.log(5) / Math.log(2), cosine(60, 0).logHalfWidth(0.5), 0.02);
  }

  /** Root mean square of a cosine over whole periods is 0.707, its mean 0. */
  @Test
  void persistenceAndMean_areThoseOfACosine() {
    LagCurve c = cosine(10, 0);
    assertEquals(Math.sqrt(0.5), c.persistence(1, LagCurve.Ranges.at(0.5)), 0.06);
    assertEquals(0, c.mean(1, LagCurve.Ranges.at(0.5)), 0.1);
  }

  @Test
  void emptyWindow_givesZeros() {
    LagCurve c = new LagCurve();
    c.fill(new double[Level.ALL.length], new float[LagCurve.size()], 0);
    for (int i = 0; i < LagCurve.size(); i++) {
      assertEquals(0, c.at(i));
    }
  }

  /** The pattern's own period is found at every scale, and repeats as a cosine does. */
  @Test
  void ownPeriod_isThePeriodWhateverItsSize() {
    for (double period : new double[] {7, 20, 44, 88}) {
      LagCurve c = cosine(period, 0);
      int own = c.ownPeriod();
      assertEquals(period, LagCurve.lagPx(own), 4, "period " + period);
      assertEquals(2, c.rise(own), 0.1, "period " + period);
      assertEquals(1, c.repeats(own), 0.1, "period " + period);
    }
  }

  @Test
  void ownPeriod_ofAFlatCurveIsNone() {
    LagCurve c = new LagCurve();
    c.fill(new double[Level.ALL.length], new float[LagCurve.size()], 4096);
    assertEquals(-1, c.ownPeriod());
  }
}
