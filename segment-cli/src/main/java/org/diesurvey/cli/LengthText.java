package org.diesurvey.cli;

import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.diesurvey.quantity.Measured;

/** Reads lengths with their unit as people type them. */
final class LengthText {
  private static final String NUMBER = "([0-9]*\\.?[0-9]+(?:[eE][+-]?[0-9]+)?)";
  private static final String UNIT = "\\s*(nm|um|\u00b5m|\u03bcm|mm)";
  private static final Pattern LENGTH =
      Pattern.compile(NUMBER + UNIT + "(?:\\s*(?:\u00b1|\\+/?-)\\s*" + NUMBER + UNIT + ")?");

  private LengthText() {}

  /** A length without uncertainty, um. */
  static double um(String option, String text) {
    return measuredUm(option, text).value();
  }

  /** A length, perhaps with its standard uncertainty, um. */
  static Measured measuredUm(String option, String text) {
    Matcher m = LENGTH.matcher(text.strip());
    if (!m.matches()) {
      throw new WrongOption(
          option, "must be a length with its unit nm, um or mm, such as 10um, was " + text);
    }
    double u = m.group(3) == null ? 0 : inUm(m.group(3), m.group(4));
    return new Measured(inUm(m.group(1), m.group(2)), u);
  }

  private static double inUm(String number, String unit) {
    double factor = unit.equals("mm") ? 1000 : unit.equals("nm") ? 0.001 : 1;
    return Double.parseDouble(number) * factor;
  }

  /** Four numbers with commas between them. */
  static double[] four(String option, String text) {
    String[] parts = text.split(",", -1);
    double[] out = new double[4];
    try {
      if (parts.length != 4) {
        throw new NumberFormatException("four");
      }
      for (int i = 0; i < 4; i++) {
        out[i] = Double.parseDouble(parts[i].strip());
      }
    } catch (NumberFormatException e) {
      throw new WrongOption(option, "must be four numbers X1,Y1,X2,Y2 in px, was " + text);
    }
    return out;
  }
}
