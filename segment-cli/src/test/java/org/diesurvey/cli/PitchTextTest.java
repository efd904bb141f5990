package org.diesurvey.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.pipeline.ScaleInput;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class PitchTextTest {
  @ParameterizedTest
  @CsvSource({
    "0.5, 0.5, 0",
    "0.5+-0.002, 0.5, 0.002",
    "0.5\u00b10.002, 0.5, 0.002",
    "0.5+/-0.002, 0.5, 0.002",
    "' 0.5 +- 0.002 ', 0.5, 0.002",
    ".25, 0.25, 0",
    "1., 1, 0",
    "5e-1+-2e-3, 0.5, 0.002",
  })
  void pitchAsTyped_isRead(String text, double value, double uncertainty) {
    var pitch = PitchText.pitch(text).umPerPx();
    assertEquals(value, pitch.value());
    assertEquals(uncertainty, pitch.standardUncertainty());
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "NaN",
        "Infinity",
        "-0.5",
        "0",
        "0.001",
        "1000",
        "1e99",
        "0,5",
        "0.5um",
        "half",
        "",
        "0.5+-",
        "0.5+-0.6",
        "0.5+-NaN",
        "0.5+-0.1+-0.1",
        "0.5-0.1"
      })
  void pitchThatNoPhotographHas_isRefusedWithTheRemedy(String text) {
    DieInputException e = assertThrows(DieInputException.class, () -> PitchText.pitch(text));
    assertEquals(Reason.SCALE_INVALID, e.reason());
    assertTrue(e.getMessage().contains("state "), e.getMessage());
  }

  @Test
  void decimalComma_isNamed() {
    DieInputException e = assertThrows(DieInputException.class, () -> PitchText.pitch("0,5"));
    assertTrue(e.getMessage().contains("comma"), e.getMessage());
  }

  /** GUM 4.3.7: rectangular distribution of half width a has u = a / sqrt(3) (numbering memory). */
  @Test
  void dieSizeWithoutUncertainty_carriesItsRounding() {
    ScaleInput.OfDieSize size = PitchText.dieSize("2.10x1.7");
    assertEquals(2.10, size.widthMm());
    assertEquals(1.7, size.heightMm());
    assertEquals(0.05 / Math.sqrt(3), size.standardUncertaintyMm(), 1e-12);
    assertEquals(
        0.005 / Math.sqrt(3), PitchText.dieSize("2.10X1.70").standardUncertaintyMm(), 1e-12);
  }

  @Test
  void dieSizeWithUncertainty_keepsIt() {
    assertEquals(0.01, PitchText.dieSize("2.1 \u00d7 1.7 +- 0.01").standardUncertaintyMm());
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"2.1", "2.1x", "x1.7", "0x1", "-2x1", "2,1x1,7", "2.1x1.7mm", "300x300", "NaNx1"})
  void dieSizeThatNoDieHas_isRefused(String text) {
    DieInputException e = assertThrows(DieInputException.class, () -> PitchText.dieSize(text));
    assertEquals(Reason.SCALE_INVALID, e.reason());
  }
}
