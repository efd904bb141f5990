package org.diesurvey.report.table;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.apache.commons.csv.CSVFormat;

/**
 * Comma-separated text after RFC 4180, quoted by Commons CSV. A text that a spreadsheet would take
 * for a formula (first character = + - @, tab or carriage return) is given a leading apostrophe, as
 * the OWASP page "CSV Injection" advises.
 */
public final class CsvTable {
  private static final CSVFormat FORMAT = CSVFormat.RFC4180;

  private final StringBuilder text = new StringBuilder();
  private final List<String> fields = new ArrayList<>();

  /** Adds a field of text. */
  public CsvTable text(String value) {
    boolean formula = !value.isEmpty() && "=+-@\t\r".indexOf(value.charAt(0)) >= 0;
    fields.add(formula ? "'" + value : value);
    return this;
  }

  /** Adds a number already written; empty for none. */
  public CsvTable number(String value) {
    fields.add(value);
    return this;
  }

  /** Ends the line. */
  public void end() {
    try {
      FORMAT.printRecord(text, fields.toArray());
    } catch (IOException e) {
      throw new UncheckedIOException("text in memory takes every line", e);
    }
    fields.clear();
  }

  /** A line of column names. */
  public void header(String... names) {
    Arrays.stream(names).forEach(this::text);
    end();
  }

  @Override
  public String toString() {
    return text.toString();
  }
}
