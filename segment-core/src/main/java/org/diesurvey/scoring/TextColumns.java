package org.diesurvey.scoring;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;

/** Text in aligned columns: the first column to the left, the others to the right. */
final class TextColumns {
  private final List<List<String>> rows = new ArrayList<>();

  TextColumns row(List<String> cells) {
    rows.add(List.copyOf(cells));
    return this;
  }

  /** The lines, two blanks between columns, no blanks at the ends, each ended by a line feed. */
  String text() {
    int columns = rows.stream().mapToInt(List::size).max().orElse(0);
    int[] widths = new int[columns];
    for (List<String> row : rows) {
      for (int i = 0; i < row.size(); i++) {
        widths[i] = Math.max(widths[i], row.get(i).length());
      }
    }
    StringBuilder text = new StringBuilder();
    for (List<String> row : rows) {
      StringBuilder line = new StringBuilder();
      for (int i = 0; i < row.size(); i++) {
        String blanks = " ".repeat(widths[i] - row.get(i).length());
        line.append(i == 0 ? row.get(i) + blanks : "  " + blanks + row.get(i));
      }
      text.append(line.toString().stripTrailing()).append('\n');
    }
    return text.toString();
  }

  /** A number with fixed decimals, or "-" where it is unknown. */
  static String number(OptionalDouble value, int decimals) {
    return value.isPresent() ? number(value.getAsDouble(), decimals) : "-";
  }

  /** A number with fixed decimals. */
  static String number(double value, int decimals) {
    return String.format(Locale.ROOT, "%." + decimals + "f", value);
  }

  /** A number with fixed decimals and always a sign, never a negative zero. */
  static String signed(double value, int decimals) {
    double scale = Math.pow(10, decimals);
    return String.format(
        Locale.ROOT, "%+." + decimals + "f", Math.rint(value * scale) / scale + 0.0);
  }
}
