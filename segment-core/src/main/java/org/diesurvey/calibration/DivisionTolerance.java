package org.diesurvey.calibration;

import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;

/**
 * How far the engraved division may be from its nominal length, all divisions alike.
 *
 * @param relative greatest departure over the division, 0 to 0.1
 * @param distribution how departures are spread
 */
public record DivisionTolerance(double relative, Distribution distribution) {
  /** Divisions taken as exact. */
  public static final DivisionTolerance NONE = new DivisionTolerance(0, Distribution.RECTANGULAR);

  private static final double LARGEST = 0.1;
  private static final Pattern TEXT =
      Pattern.compile(
          "([0-9]*\\.?[0-9]+(?:[eE][+-]?[0-9]+)?)\\s*(nm|um|\u00b5m|\u03bcm|mm|%)"
              + "(?:[\\s,]+(rectangular|triangular|normal))?");

  /** Spread of a quantity of which only a limit is stated. */
  public enum Distribution {
    /** Every value within the limit alike: u = a / sqrt(3), JCGM 100:2008 (GUM) 4.3.7. */
    RECTANGULAR(Math.sqrt(3)),
    /** Values near the middle likelier: u = a / sqrt(6), JCGM 100:2008 (GUM) 4.3.9. */
    TRIANGULAR(Math.sqrt(6)),
    /** The limit is an expanded uncertainty with k = 2, as certificates state it. */
    NORMAL(2);

    private final double divisor;

    Distribution(double divisor) {
      this.divisor = divisor;
    }

    /** Name as the user writes it. */
    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  /** Rejects tolerances that no scale has. */
  public DivisionTolerance {
    if (!(relative >= 0 && relative <= LARGEST)) {
      throw new DieInputException(
          Reason.SCALE_INVALID,
          String.format(
              Locale.ROOT,
              "A tolerance of %.3g %% of a division is not that of a measuring scale: state one of"
                  + " at most 10 %%, for example 0.02um or 0.1%%.",
              100 * relative));
    }
  }

  /**
   * A tolerance as people type it: "0.02um", "20nm normal", "0.1%,triangular"; rectangular where no
   * distribution is named.
   *
   * @param divisionUm nominal length of a division, um
   */
  public static DivisionTolerance parse(String text, double divisionUm) {
    Matcher m = TEXT.matcher(text.strip().toLowerCase(Locale.ROOT));
    if (!m.matches()) {
      throw new DieInputException(
          Reason.SCALE_INVALID,
          "--division-tolerance "
              + text
              + " is not a value with its unit: state the greatest error of one division, for"
              + " example 0.02um, 20nm or 0.1%, and after a comma rectangular, triangular or normal"
              + " (normal: expanded uncertainty with k = 2).");
    }
    double value = Double.parseDouble(m.group(1));
    double relative =
        switch (m.group(2)) {
          case "%" -> value / 100;
          case "nm" -> value / 1000 / divisionUm;
          case "mm" -> value * 1000 / divisionUm;
          default -> value / divisionUm;
        };
    Distribution d =
        m.group(3) == null
            ? Distribution.RECTANGULAR
            : Distribution.valueOf(m.group(3).toUpperCase(Locale.ROOT));
    return new DivisionTolerance(relative, d);
  }

  /** Standard uncertainty of the division over its length. */
  public double standardRelative() {
    return relative / distribution.divisor;
  }
}
