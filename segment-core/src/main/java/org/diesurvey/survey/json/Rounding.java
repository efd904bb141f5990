package org.diesurvey.survey.json;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;

/**
 * How many digits a number keeps in a document. Rounding a rounded number changes nothing, so a
 * document that is read and written again keeps its bytes.
 */
final class Rounding {
  private Rounding() {}

  /** To a fixed number of decimals, half to even, without trailing zeros. */
  static BigDecimal decimals(double value, int decimals) {
    return plain(BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_EVEN));
  }

  /** To a number of significant digits, half to even, without trailing zeros. */
  static BigDecimal significant(double value, int digits) {
    return plain(BigDecimal.valueOf(value).round(new MathContext(digits, RoundingMode.HALF_EVEN)));
  }

  private static BigDecimal plain(BigDecimal value) {
    BigDecimal stripped = value.stripTrailingZeros();
    return stripped.scale() < 0 ? stripped.setScale(0) : stripped;
  }
}
