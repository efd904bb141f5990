package org.diesurvey.calibration;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class OpticsLimitsTest {
  /** Optical microscopy hints page of a laboratory supplier: 408 nm. */
  @Test
  void abbe_agreesWithPublishedExample() {
    assertEquals(0.408, OpticsLimits.abbeUm(530, 0.65), 0.0005);
  }

  /** 0.61 lambda / NA at 550 nm and NA 0.90 (value from memory, arithmetic checked). */
  @Test
  void rayleigh_atNa09_is373Nm() {
    assertEquals(0.37278, OpticsLimits.rayleighUm(550, 0.90), 1e-5);
  }

  /** Encyclopaedia article "Angular resolution", section Microscope: 203 nm. */
  @Test
  void rayleighWithCondenser_agreesWithPublishedExample() {
    assertEquals(0.203, OpticsLimits.rayleighUm(400, 1.45, 0.95), 0.0005);
  }

  /** Table "Optical Resolution vs. Zoom Factor" of a university, after Inoue 1986, p. 114. */
  @ParameterizedTest(name = "{0} nm, NA {1}")
  @CsvSource({
    "515, 0.13, 2.42, 1.05",
    "515, 0.45, 0.70, 0.30",
    "515, 0.75, 0.42, 0.18",
    "515, 1.30, 0.24, 0.11",
    "515, 1.40, 0.22, 0.10",
    "580, 1.40, 0.25, 0.11",
    "670, 1.40, 0.29, 0.13"
  })
  void rayleighAndPitch_agreeWithPublishedTable(
      double wavelengthNm, double aperture, double resolvedUm, double pitchUm) {
    double resolved = OpticsLimits.rayleighUm(wavelengthNm, aperture);
    assertEquals(resolvedUm, resolved, 0.006);
    assertEquals(
        pitchUm, OpticsLimits.coarsestPitchUm(resolved, OpticsLimits.PRACTICAL_SAMPLES), 0.006);
  }

  /** Table "Overview of Microscope objectives DoF" of a forum for macro photographers, 550 nm. */
  @ParameterizedTest(name = "NA {0}")
  @CsvSource({
    "0.10, 55",
    "0.14, 28.1",
    "0.20, 13.8",
    "0.25, 8.8",
    "0.28, 7.02",
    "0.40, 3.44",
    "0.42, 3.12",
    "0.55, 1.82",
    "0.75, 0.98"
  })
  void waveDepthOfField_agreesWithPublishedTable(double aperture, double depthUm) {
    assertEquals(depthUm, OpticsLimits.waveDepthOfFieldUm(550, aperture, 1), 0.06);
  }

  /**
   * Formula 1 of the depth-of-field calculator of MicroscopyU. A published copy drops the square on
   * NA and prints 40.5 um; the formula gives 90.
   */
  @Test
  void totalDepthOfField_keepsTheSquareOfTheAperture() {
    assertEquals(90.0, OpticsLimits.depthOfFieldUm(550, 0.1, 1, 4, 14), 1e-9);
  }

  /** Factor 0.47 from memory; it must lie below Abbe's and Rayleigh's distance. */
  @Test
  void sparrow_isTheSmallestOfTheThree() {
    assertEquals(0.2585, OpticsLimits.sparrowUm(550, 1.0), 1e-9);
    assertEquals(0.275, OpticsLimits.abbeUm(550, 1.0), 1e-9);
    assertEquals(0.3355, OpticsLimits.rayleighUm(550, 1.0), 1e-9);
  }

  @Test
  void impossibleOptics_areRefused() {
    assertThrows(IllegalArgumentException.class, () -> OpticsLimits.abbeUm(0.55, 0.9));
    assertThrows(IllegalArgumentException.class, () -> OpticsLimits.abbeUm(550, 0));
    assertThrows(IllegalArgumentException.class, () -> OpticsLimits.coarsestPitchUm(1, 1.9));
    assertThrows(
        IllegalArgumentException.class, () -> OpticsLimits.depthOfFieldUm(550, 0.1, 1, 0, 14));
  }
}
