package org.diesurvey.calibration;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;

class ScaleArithmeticTest {
  /** UK NEQAS Parasitology teaching page "Measurement", steps 6 and 7; 10 divisions are 25 um. */
  @Test
  void fiftyDivisionsOver125Um_are2point5UmEach() {
    double um = ScaleArithmetic.umPerUnit(125, 50);
    assertEquals(2.5, um);
    assertEquals(25, 10 * um);
  }

  /**
   * Flash cards "Microscope measurements and calculations": 50 units are 10 stage units of 10 um.
   */
  @Test
  void changeOfObjective_scalesByNominalMagnification() {
    double at400 = ScaleArithmetic.umPerUnit(10 * 10, 50);
    assertEquals(2, at400);
    assertEquals(8, ScaleArithmetic.afterObjectiveChange(at400, 400, 100));
  }

  /** Homework page: a stage micrometer 1 mm long with 100 divisions; a 2 mm scale exists also. */
  @Test
  void stageMicrometerOf1MmIn100Parts_hasDivisionsOf10Um() {
    assertEquals(10, ScaleArithmetic.divisionUm(1, 100), 1e-12);
    assertEquals(10, ScaleArithmetic.divisionUm(2, 200), 1e-12);
  }

  /** Camera-resolution tutorial of a camera maker: 6.5 um pixels at 10x, 40x and 60x. */
  @Test
  void cameraPixelOf6point5Um_overMagnification() {
    assertEquals(0.65, ScaleArithmetic.specimenPitchUm(6.5, 10), 1e-6);
    assertEquals(0.1625, ScaleArithmetic.specimenPitchUm(6.5, 40), 1e-6);
    assertEquals(0.108333, ScaleArithmetic.specimenPitchUm(6.5, 60), 1e-6);
  }

  @Test
  void zeroUnits_areRefused() {
    assertThrows(IllegalArgumentException.class, () -> ScaleArithmetic.umPerUnit(125, 0));
    assertThrows(IllegalArgumentException.class, () -> ScaleArithmetic.umPerUnit(Double.NaN, 50));
  }
}
