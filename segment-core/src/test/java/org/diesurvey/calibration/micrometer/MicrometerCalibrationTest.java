package org.diesurvey.calibration.micrometer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalInt;
import org.diesurvey.calibration.CalibrationEvidence.Axes;
import org.diesurvey.calibration.DivisionTolerance;
import org.diesurvey.quantity.Measured;
import org.junit.jupiter.api.Test;

class MicrometerCalibrationTest {
  private static MicrometerReading reading(double stepPx, double uPx, double rotationDeg) {
    return new MicrometerReading(
        "m.tif",
        "",
        new MicrometerReading.Engraving(10, true, 3, OptionalInt.of(5)),
        new MicrometerReading.Step(new Measured(stepPx, uPx), 98, 0.1),
        new Measured(rotationDeg, 0.01),
        new MicrometerReading.Bend(0, false),
        101,
        100,
        List.of());
  }

  /** The weighted mean and its uncertainty, worked by hand: weights 1 / u^2 of 4 to 1. */
  @Test
  void photographsAlongOneDirection_areWeighted() {
    var c =
        MicrometerCalibration.of(
            List.of(reading(20, 0.02, 0), reading(20.04, 0.04, 3)), DivisionTolerance.NONE);
    assertEquals(10 / 20.008, c.umPerPx().value(), 1e-5);
    assertEquals(0.02 / Math.sqrt(1.25) / 20 * 0.5, c.umPerPx().standardUncertainty(), 2e-6);
    assertTrue(c.evidence().axes().isEmpty());
  }

  /** Two readings 10 standard deviations apart: Birge's ratio is 10 / sqrt(2). */
  @Test
  void photographsThatDisagree_raiseTheUncertainty_andSaySo() {
    var c =
        MicrometerCalibration.of(
            List.of(reading(20, 0.002, 0), reading(20.02, 0.002, 2)), DivisionTolerance.NONE);
    assertEquals(7.07, c.evidence().birgeRatio().orElseThrow(), 0.3);
    assertTrue(c.umPerPx().standardUncertainty() > 0.0002, c.umPerPx().toString());
    assertTrue(
        c.evidence().remarks().stream().anyMatch(r -> r.contains("differ by")),
        c.evidence().remarks().toString());
  }

  @Test
  void photographsAlongBothAxes_giveBothPitches_andTheirGeometricMean() {
    var c =
        MicrometerCalibration.of(
            List.of(reading(20, 0.002, 0), reading(20.2, 0.002, 90)), DivisionTolerance.NONE);
    Axes axes = c.evidence().axes().orElseThrow();
    assertEquals(0.5, axes.xUmPerPx().value(), 1e-9);
    assertEquals(10 / 20.2, axes.yUmPerPx().value(), 1e-9);
    assertEquals(0.01, axes.anisotropy().value(), 1e-6);
    assertEquals(Math.sqrt(0.5 * 10 / 20.2), c.umPerPx().value(), 1e-9);
  }

  /** Pixels of 0.5 x 0.495 um seen at 10 and 100 degrees: 1/p^2 = cos^2/px^2 + sin^2/py^2. */
  @Test
  void anisotropyOfTurnedScales_isThatOfTheAxes() {
    double[] steps = new double[2];
    for (int i = 0; i < 2; i++) {
      double a = Math.toRadians(10 + 90 * i);
      steps[i] = 10 * Math.hypot(Math.cos(a) / 0.5, Math.sin(a) / 0.495);
    }
    var c =
        MicrometerCalibration.of(
            List.of(reading(steps[0], 0.002, 10), reading(steps[1], 0.002, -80)),
            DivisionTolerance.NONE);
    assertEquals(0.5, c.evidence().axes().orElseThrow().xUmPerPx().value(), 1e-9);
    assertEquals(0.495, c.evidence().axes().orElseThrow().yUmPerPx().value(), 1e-9);
  }

  /** Limits a spread by a / sqrt(3), a / sqrt(6) and, as certificates say, a / 2. */
  @Test
  void toleranceOfTheDivision_isCommonToAllPhotographs() {
    for (String[] t :
        new String[][] {{"", "1.7320508"}, {",triangular", "2.4494897"}, {" normal", "2"}}) {
      DivisionTolerance tolerance = DivisionTolerance.parse("0.1um" + t[0], 10);
      var c =
          MicrometerCalibration.of(List.of(reading(20, 1e-6, 0), reading(20, 1e-6, 1)), tolerance);
      double relative = c.umPerPx().relativeUncertainty();
      assertEquals(0.01 / Double.parseDouble(t[1]), relative, 1e-5);
    }
    assertEquals(0.002, DivisionTolerance.parse("20nm", 10).relative(), 1e-12);
    assertEquals(0.001, DivisionTolerance.parse("0.1%", 10).relative(), 1e-12);
  }

  /**
   * JCGM 100:2008 (GUM) H.3, calibration of a thermometer: slope 0.00218, scatter 0.0035, standard
   * uncertainty of the slope 0.00067 (data and results from memory). Residuals that go together may
   * only raise the uncertainty.
   */
  @Test
  void straightLine_isThatOfTheThermometerExample() {
    double[] t = {
      21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511
    };
    double[] b = {
      -0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160
    };
    StepFit fit = new StepFit(t, b);
    assertEquals(0.00218, fit.stepPx, 0.000005);
    assertEquals(0.0035, fit.scatterPx, 0.00005);
    assertTrue(fit.stepUncertaintyPx >= 0.00066, "u " + fit.stepUncertaintyPx);
  }
}
