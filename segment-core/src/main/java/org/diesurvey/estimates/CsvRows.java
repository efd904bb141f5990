package org.diesurvey.estimates;

import java.util.ArrayList;
import java.util.List;

/** Splits comma-separated text after RFC 4180 into rows of fields. */
final class CsvRows {
  private CsvRows() {}

  /**
   * @param text whole file; lines may end with CRLF or LF
   * @return rows of fields, blank lines left out
   * @throws IllegalArgumentException for a quote that is never closed
   */
  static List<List<String>> of(String text) {
    List<List<String>> rows = new ArrayList<>();
    List<String> row = new ArrayList<>();
    StringBuilder field = new StringBuilder();
    boolean quoted = false;
    for (int i = 0; i <= text.length(); i++) {
      char c = i < text.length() ? text.charAt(i) : '\n';
      if (i == text.length() && quoted) {
        throw new IllegalArgumentException("a quote is never closed");
      }
      if (quoted) {
        if (c != '"') {
          field.append(c);
        } else if (i + 1 < text.length() && text.charAt(i + 1) == '"') {
          field.append('"');
          i++;
        } else {
          quoted = false;
        }
      } else if (c == '"' && field.length() == 0) {
        quoted = true;
      } else if (c == ',' || c == '\n') {
        row.add(field.toString().strip());
        field.setLength(0);
        if (c == '\n') {
          if (row.size() > 1 || !row.get(0).isEmpty()) {
            rows.add(List.copyOf(row));
          }
          row.clear();
        }
      } else {
        field.append(c);
      }
    }
    return rows;
  }
}
