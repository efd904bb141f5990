package org.diesurvey.report;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Comma-separated text after RFC 4180: CRLF ends every line, a field with a comma, quote or line
 * break is quoted and its quotes are doubled. A text that a spreadsheet would take for a formula
 * (first character = + - @, tab or carriage return) is given a leading apostrophe, as the OWASP
 * page "CSV Injection" advises.
 */
final class CsvTable {
  private final StringBuilder text = new StringBuilder();
  private final List<String> fields = new ArrayList<>();

  /** Adds a field of text. */
  CsvTable text(String value) {
    boolean formula = !value.isEmpty() && "=+-@\t\r".indexOf(value.charAt(0)) >= 0;
    return field(formula ? "'" + value : value);
  }

  /** Adds a number already written; empty for none. */
  CsvTable number(String value) {
    return field(value);
  }

  private CsvTable field(String value) {
    boolean quote = value.chars().anyMatch(c -> c == ',' || c == '"' || c == '\n' || c == '\r');
    fields.add(quote ? '"' + value.replace("\"", "\"\"") + '"' : value);
    return this;
  }

  /** Ends the line. */
  void end() {
    text.append(String.join(",", fields)).append("\r\n");
    fields.clear();
  }

  /** A line of column names. */
  void header(String... names) {
    Arrays.stream(names).forEach(this::text);
    end();
  }

  @Override
  public String toString() {
    return text.toString();
  }
}
