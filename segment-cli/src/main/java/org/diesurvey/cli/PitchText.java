package org.diesurvey.cli;

import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.pipeline.ScaleInput;

/** Reads scales as people type them: a value, perhaps with its standard uncertainty. */
final class PitchText {
  private static final String NUMBER = "([+-]?[0-9]*\\.?[0-9]+(?:[eE][+-]?[0-9]+)?|[0-9]+\\.)";
  private static final String PLUS_MINUS = "\\s*(?:\u00b1|\\+/?-)\\s*";
  private static final Pattern PITCH = Pattern.compile(NUMBER + "(?:" + PLUS_MINUS + NUMBER + ")?");
  private static final Pattern SIZE =
      Pattern.compile(NUMBER + "\\s*[xX\u00d7]\\s*" + NUMBER + "(?:" + PLUS_MINUS + NUMBER + ")?");

  private PitchText() {}

  /**
   * A pixel pitch, um/px: "0.5" or "0.5+-0.002".
   *
   * @throws DieInputException SCALE_INVALID
   */
  static Calibration pitch(String text) {
    Matcher m = PITCH.matcher(text.strip());
    if (!m.matches()) {
      throw invalid(
          "--um-per-px " + text,
          text,
          "this is not a plain number (without a unit)",
          "state the width of one pixel on the die in micrometres, for example 0.5 or 0.5+-0.002");
    }
    double u = m.group(2) == null ? 0 : Double.parseDouble(m.group(2));
    return Calibration.ofPixelPitch(Double.parseDouble(m.group(1)), u);
  }

  /**
   * A die size, mm: "2.1x1.7" or "2.10x1.70+-0.01". Without an uncertainty that of rounding to the
   * last digit stated counts: half a digit to each side, all values equally likely, so u = a /
   * sqrt(3) (JCGM 100:2008, GUM, 4.3.7; numbering from memory).
   *
   * @throws DieInputException SCALE_INVALID
   */
  static ScaleInput.OfDieSize dieSize(String text) {
    Matcher m = SIZE.matcher(text.strip());
    if (!m.matches()) {
      throw invalid(
          "--die-size " + text,
          text,
          PITCH.matcher(text.strip()).matches()
              ? "this is one length, and a die has two"
              : "these are not two plain numbers with an x between them",
          "state width x height in millimetres, for example 2.1x1.7 or 2.10x1.70+-0.01");
    }
    double u =
        m.group(3) == null
            ? 0.5 * Math.max(lastDigit(m.group(1)), lastDigit(m.group(2))) / Math.sqrt(3)
            : Double.parseDouble(m.group(3));
    return new ScaleInput.OfDieSize(
        Double.parseDouble(m.group(1)), Double.parseDouble(m.group(2)), u);
  }

  /** Value of one step of the last digit: 0.1 for "2.1". */
  private static double lastDigit(String number) {
    java.math.BigDecimal n = new java.math.BigDecimal(number);
    return java.math.BigDecimal.ONE.scaleByPowerOfTen(-n.scale()).doubleValue();
  }

  private static DieInputException invalid(
      String place, String text, String wanted, String remedy) {
    String seen = text.indexOf(',') >= 0 ? "the decimal sign is a point, not a comma" : wanted;
    return new DieInputException(Reason.SCALE_INVALID, place + ": " + seen + "; " + remedy + ".");
  }
}
