package org.diesurvey.report.text;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Locale;
import org.diesurvey.estimates.AmountKind;
import org.diesurvey.estimates.Estimate;

/**
 * Estimated amounts as people read them, never with more digits than the interval bears: two
 * significant digits.
 */
public final class Amounts {
  private static final double KIB = 8 * 1024;
  private static final double MIB = 1024 * KIB;

  private Amounts() {}

  /** "about 190,000 bits (23 KiB), 95 % interval 90,000 to 420,000 (11 to 51 KiB)". */
  public static String sentence(AmountKind kind, Estimate e) {
    String unit = unit(kind);
    String bytes = kind == AmountKind.BITS ? " (" + bytes(e.value()) + ")" : "";
    String range =
        kind == AmountKind.BITS ? " (" + bytes(e.low()) + " to " + bytes(e.high()) + ")" : "";
    return "about "
        + count(e.value())
        + " "
        + unit
        + bytes
        + ", 95\u00a0% interval "
        + interval(e)
        + range;
  }

  /** "90,000 to 420,000". */
  public static String interval(Estimate e) {
    return count(e.low()) + " to " + count(e.high());
  }

  /** What is counted. */
  public static String unit(AmountKind kind) {
    return switch (kind) {
      case BITS -> "bits";
      case NAND2 -> "NAND2-equivalents";
      case TRANSISTORS -> "transistors in logic";
    };
  }

  /** Two significant digits with thousands parted; millions from ten million on. */
  public static String count(double amount) {
    double v = two(amount);
    if (v >= 1e7) {
      return plain(v / 1e6) + " million";
    }
    return String.format(Locale.ROOT, "%,d", Math.round(v));
  }

  /** KiB, or MiB from 1 MiB on; two significant digits. */
  public static String bytes(double bits) {
    return bits < MIB ? plain(bits / KIB) + "\u00a0KiB" : plain(bits / MIB) + "\u00a0MiB";
  }

  private static String plain(double v) {
    return BigDecimal.valueOf(two(v)).stripTrailingZeros().toPlainString();
  }

  private static double two(double v) {
    return BigDecimal.valueOf(v).round(new MathContext(2, RoundingMode.HALF_EVEN)).doubleValue();
  }
}
