package org.diesurvey.preparation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import org.apache.commons.math3.stat.regression.OLSMultipleLinearRegression;
import org.junit.jupiter.api.Test;

class IlluminationTest {
  private static final double[] SURFACE = {-0.9, 0.21, -0.13, -0.3, 0.08, -0.17};
  private static final int SIDE = 30;

  private static double log(double u, double v) {
    double[] c = SURFACE;
    return c[0] + c[1] * u + c[2] * v + c[3] * u * u + c[4] * u * v + c[5] * v * v;
  }

  private static double place(int cell) {
    return 2 * (cell + 0.5) / SIDE - 1;
  }

  /** The surface with noise and a brighter block in a corner, half the die high. */
  private static double[] grey(double noise, double blockShare) {
    double[] grey = new double[SIDE * SIDE];
    SplittableRandom random = new SplittableRandom(5);
    for (int i = 0; i < grey.length; i++) {
      double block = i % SIDE < blockShare * SIDE && i / SIDE > SIDE / 2 ? 0.5 : 0;
      double light = log(place(i % SIDE), place(i / SIDE));
      grey[i] = Math.exp(light + block + noise * random.nextGaussian());
    }
    return grey;
  }

  private static Illumination fit(double noise, double blockShare) {
    int n = SIDE * SIDE;
    double[] u = new double[n];
    double[] v = new double[n];
    for (int i = 0; i < n; i++) {
      u[i] = place(i % SIDE);
      v[i] = place(i / SIDE);
    }
    return Illumination.fit(u, v, grey(noise, blockShare));
  }

  private static void assertSurface(Illumination found, double tolerance) {
    double[] c = {found.c0(), found.c1(), found.c2(), found.c3(), found.c4(), found.c5()};
    for (int i = 0; i < c.length; i++) {
      assertEquals(SURFACE[i], c[i], tolerance, "coefficient " + i);
    }
  }

  @Test
  void secondOrderSurface_isFoundExactly() {
    assertSurface(fit(0, 0), 1e-6);
  }

  @Test
  void noisySurface_isFoundWithinItsNoise() {
    assertSurface(fit(0.03, 0), 0.01);
  }

  /**
   * A block of 1.65 times the brightness must pull less than half as far as in plain least squares.
   */
  @Test
  void brightBlock_pullsLittle() {
    int n = SIDE * SIDE;
    double[] grey = grey(0.02, 0.2);
    double[][] terms = new double[n][];
    double[] logs = new double[n];
    for (int i = 0; i < n; i++) {
      double u = place(i % SIDE);
      double v = place(i / SIDE);
      terms[i] = new double[] {u, v, u * u, u * v, v * v};
      logs[i] = Math.log(grey[i]);
    }
    OLSMultipleLinearRegression plain = new OLSMultipleLinearRegression();
    plain.newSampleData(logs, terms);
    double[] c = plain.estimateRegressionParameters();
    Illumination leastSquares = new Illumination(c[0], c[1], c[2], c[3], c[4], c[5]);
    double off = worstGain(leastSquares);
    assertTrue(off > 0.1, "the block must matter: " + off);
    assertTrue(worstGain(fit(0.02, 0.2)) < 0.5 * off, worstGain(fit(0.02, 0.2)) + " of " + off);
  }

  private static double worstGain(Illumination light) {
    double worst = 0;
    for (int i = -4; i <= 4; i++) {
      for (int j = -4; j <= 4; j++) {
        double expected = log(0, 0) - log(i / 4.0, j / 4.0);
        worst = Math.max(worst, Math.abs(Math.log(light.gain(i / 4.0, j / 4.0)) - expected));
      }
    }
    return worst;
  }

  @Test
  void gain_undoesTheFallOffButKeepsTheMiddle() {
    Illumination light = fit(0, 0);
    assertEquals(1, light.gain(0, 0), 1e-9);
    assertEquals(Math.exp(log(0, 0) - log(0.7, -0.4)), light.gain(0.7, -0.4), 1e-6);
    assertTrue(light.span() > 1.5, "span " + light.span());
  }

  @Test
  void gain_staysWithinAThirdAndThree() {
    Illumination wild = new Illumination(0, 5, 0, 0, 0, 0);
    assertEquals(1 / 3.0, wild.gain(1, 0), 0.01);
    assertEquals(3, wild.gain(-1, 0), 0.01);
  }

  @Test
  void tooFewPlaces_giveEvenLight() {
    assertEquals(Illumination.EVEN, Illumination.fit(new double[5], new double[5], new double[5]));
  }
}
