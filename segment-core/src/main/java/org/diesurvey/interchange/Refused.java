package org.diesurvey.interchange;

import java.math.BigDecimal;
import java.math.RoundingMode;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;

/** The refusals of files with outlines, and the numbers in them. */
public final class Refused {
  private static final int LONGEST_QUOTE = 60;

  private Refused() {}

  /** A file that is no valid set of outlines. */
  public static DieInputException file(String place, String why) {
    return new DieInputException(Reason.DOCUMENT_INVALID, place + ": " + why + ".");
  }

  public static DieInputException file(String place, String why, Throwable cause) {
    return new DieInputException(Reason.DOCUMENT_INVALID, place + ": " + why + ".", cause);
  }

  /** One outline of a file. */
  public static DieInputException outline(String place, String id, String why) {
    return file(place, "outline '" + quoted(id) + "' " + why);
  }

  /** Text of a file, made short and harmless for a message. */
  public static String quoted(String text) {
    StringBuilder s = new StringBuilder();
    text.codePoints()
        .limit(LONGEST_QUOTE + 1L)
        .forEach(
            c -> {
              int type = Character.getType(c);
              boolean hidden =
                  type == Character.CONTROL
                      || type == Character.FORMAT
                      || type == Character.SURROGATE
                      || type == Character.LINE_SEPARATOR
                      || type == Character.PARAGRAPH_SEPARATOR;
              s.appendCodePoint(hidden ? '?' : c);
            });
    return text.codePointCount(0, text.length()) > LONGEST_QUOTE
        ? s.substring(0, s.offsetByCodePoints(0, LONGEST_QUOTE)) + "..."
        : s.toString();
  }

  /** A coordinate or area for a message. */
  public static String number(double v) {
    if (!Double.isFinite(v)) {
      return Double.toString(v);
    }
    return Math.abs(v) >= 1e9
        ? String.format(java.util.Locale.ROOT, "%.3g", v)
        : BigDecimal.valueOf(v)
            .setScale(1, RoundingMode.HALF_EVEN)
            .stripTrailingZeros()
            .toPlainString();
  }
}
