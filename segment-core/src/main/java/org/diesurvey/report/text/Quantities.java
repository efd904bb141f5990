package org.diesurvey.report.text;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Locale;
import java.util.Optional;
import org.diesurvey.quantity.Measured;

/**
 * Numbers as people read them. A standard uncertainty keeps two significant digits and its value
 * ends at the same place (JCGM 100:2008, GUM, 7.2.6: two digits suffice, value and uncertainty
 * agree in their last place).
 */
public final class Quantities {
  private static final String PLUS_MINUS = " \u00b1 ";

  private Quantities() {}

  /** "0.3904 ± 0.0031 mm²", or four significant digits where the value is taken as exact. */
  public static String withUncertainty(Measured m, String unit) {
    if (m.standardUncertainty() == 0) {
      return significant(m.value(), 4) + " " + unit;
    }
    BigDecimal u =
        BigDecimal.valueOf(m.standardUncertainty())
            .round(new MathContext(2, RoundingMode.HALF_EVEN));
    // 0.099 rounded to two digits may become 0.1: the scale then still counts two digits.
    int decimals = 1 - (u.precision() - u.scale() - 1);
    if (decimals < 0) {
      BigDecimal step = BigDecimal.ONE.scaleByPowerOfTen(-decimals);
      BigDecimal value =
          BigDecimal.valueOf(m.value()).divide(step, 0, RoundingMode.HALF_EVEN).multiply(step);
      return value.toPlainString() + PLUS_MINUS + u.toPlainString() + " " + unit;
    }
    return fixed(m.value(), decimals) + PLUS_MINUS + fixed(u.doubleValue(), decimals) + " " + unit;
  }

  public static String withUncertainty(Optional<Measured> m, String unit) {
    return m.map(v -> withUncertainty(v, unit)).orElse("\u2013");
  }

  /** A fixed number of decimals, half to even. */
  public static String fixed(double value, int decimals) {
    return BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_EVEN).toPlainString();
  }

  /** A number of significant digits, never in exponent form. */
  public static String significant(double value, int digits) {
    if (value == 0) {
      return "0";
    }
    BigDecimal v = BigDecimal.valueOf(value).round(new MathContext(digits, RoundingMode.HALF_EVEN));
    int decimals = digits - (v.precision() - v.scale());
    return v.setScale(Math.max(0, decimals), RoundingMode.HALF_EVEN).toPlainString();
  }

  /** At most a number of significant digits, without trailing zeros, never in exponent form. */
  public static String plain(double value, int digits) {
    return value == 0
        ? "0"
        : new BigDecimal(significant(value, digits)).stripTrailingZeros().toPlainString();
  }

  /** "12.3 %"; what is not nothing but below a tenth of a percent is said to be so. */
  public static String percent(double share) {
    if (share > 0 && share < 0.001) {
      return "< 0.1\u00a0%";
    }
    return fixed(100 * share, 1) + "\u00a0%";
  }

  /** Whole percent for probabilities; nothing that was estimated is certain. */
  public static String probability(double p) {
    if (p > 0.99) {
      return "> 99\u00a0%";
    }
    if (p > 0 && p < 0.01) {
      return "< 1\u00a0%";
    }
    return Math.round(100 * p) + "\u00a0%";
  }

  /** "3,412,000 px²". */
  public static String squarePixels(double areaPx) {
    return String.format(Locale.ROOT, "%,d px\u00b2", Math.round(areaPx));
  }

  /** A figure as text, as a JSON number without trailing zeros. */
  public static BigDecimal decimal(String value) {
    BigDecimal d = new BigDecimal(value);
    return d.signum() == 0 ? BigDecimal.ZERO : d.stripTrailingZeros();
  }
}
