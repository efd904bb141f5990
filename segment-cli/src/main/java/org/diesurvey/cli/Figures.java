package org.diesurvey.cli;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import org.diesurvey.quantity.Measured;

/** Numbers for the console. */
final class Figures {
  private Figures() {}

  /**
   * "0.3904 ± 0.0031": the standard uncertainty with two significant digits and the value to the
   * same place (JCGM 100:2008, GUM, 7.2.6; numbering from memory); four significant digits where
   * the value is taken as exact.
   */
  static String measured(Measured m) {
    if (m.standardUncertainty() == 0) {
      return significant(m.value(), 4);
    }
    BigDecimal u = round(m.standardUncertainty(), 2);
    int decimals = Math.max(0, 1 - (u.precision() - u.scale() - 1));
    return fixed(m.value(), decimals) + " \u00b1 " + fixed(m.standardUncertainty(), decimals);
  }

  /** A number of significant digits, never in exponent form. */
  static String significant(double value, int digits) {
    if (value == 0) {
      return "0";
    }
    BigDecimal v = round(value, digits);
    int decimals = digits - (v.precision() - v.scale());
    return v.setScale(Math.max(0, decimals), RoundingMode.HALF_EVEN).toPlainString();
  }

  /** A fixed number of decimals, half to even. */
  static String fixed(double value, int decimals) {
    return BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_EVEN).toPlainString();
  }

  private static BigDecimal round(double value, int digits) {
    return BigDecimal.valueOf(value).round(new MathContext(digits, RoundingMode.HALF_EVEN));
  }
}
