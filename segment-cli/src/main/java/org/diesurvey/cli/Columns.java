package org.diesurvey.cli;

import java.util.ArrayList;
import java.util.List;

/** Text in aligned columns: the first column to the left, the others to the right. */
final class Columns {
  private final List<List<String>> rows = new ArrayList<>();

  void row(String... cells) {
    rows.add(List.of(cells));
  }

  /**
   * The lines, three blanks between columns.
   *
   * @param indent blanks before each line
   */
  List<String> lines(int indent) {
    int columns = rows.stream().mapToInt(List::size).max().orElse(0);
    int[] widths = new int[columns];
    for (List<String> row : rows) {
      for (int i = 0; i < row.size(); i++) {
        widths[i] = Math.max(widths[i], row.get(i).length());
      }
    }
    List<String> lines = new ArrayList<>();
    for (List<String> row : rows) {
      StringBuilder line = new StringBuilder(" ".repeat(indent));
      for (int i = 0; i < row.size(); i++) {
        String blanks = " ".repeat(widths[i] - row.get(i).length());
        line.append(i == 0 ? row.get(i) + blanks : "   " + blanks + row.get(i));
      }
      lines.add(line.toString().stripTrailing());
    }
    return lines;
  }
}
