package org.diesurvey.archive.query;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.ResultSetMetaData;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.archive.store.ArchiveDatabase;
import org.diesurvey.archive.store.ArchiveFolder;

/**
 * Rows read from an archive.
 *
 * @param columns names
 * @param rows values by column: text, whole or floating-point numbers, null where nothing is known
 */
public record ArchiveTable(List<String> columns, List<List<Object>> rows) {
  /** Columns of an answer to {@link #find}. */
  private static final String FOUND =
      "file_name, die_name, revision, node_nm, die_area_mm2, memory_share, macro_share,"
          + " logic_share, folder";

  /** Copies the lists. */
  public ArchiveTable {
    columns = List.copyOf(columns);
    rows = List.copyOf(rows);
  }

  /**
   * Surveyed photographs that an expression describes.
   *
   * @param archive its folder
   * @param expression see {@link FindExpression}
   * @throws DieInputException DOCUMENT_INVALID for an expression that is not understood,
   *     FILE_MISSING if there is no archive
   */
  public static ArchiveTable find(Path archive, String expression) {
    FindExpression.Condition c = FindExpression.parse(expression);
    return read(
        archive,
        "SELECT " + FOUND + " FROM surveyed_photo WHERE " + c.sql() + " ORDER BY file_name, path",
        c.parameters());
  }

  /**
   * The answer to one statement of SQL, which cannot change the archive.
   *
   * @param archive its folder
   * @param sql a statement with a result, of SQLite's dialect
   * @param parameters for its question marks
   * @throws DieInputException DOCUMENT_INVALID for a statement that SQLite refuses
   */
  public static ArchiveTable read(Path archive, String sql, List<Object> parameters) {
    Path file = archive.toAbsolutePath().normalize().resolve(ArchiveFolder.DATABASE);
    try (Connection connection = ArchiveDatabase.readOnly(file);
        PreparedStatement s = connection.prepareStatement(sql)) {
      for (int i = 0; i < parameters.size(); i++) {
        s.setObject(i + 1, parameters.get(i));
      }
      try (ResultSet r = s.executeQuery()) {
        return of(r);
      }
    } catch (SQLException e) {
      throw new DieInputException(
          Reason.DOCUMENT_INVALID,
          file + ": the database does not answer this (" + e.getMessage() + ").",
          e);
    }
  }

  private static ArchiveTable of(ResultSet r) throws SQLException {
    ResultSetMetaData m = r.getMetaData();
    List<String> columns = new ArrayList<>();
    for (int i = 1; i <= m.getColumnCount(); i++) {
      columns.add(m.getColumnLabel(i));
    }
    List<List<Object>> rows = new ArrayList<>();
    while (r.next()) {
      List<Object> row = new ArrayList<>();
      for (int i = 1; i <= columns.size(); i++) {
        row.add(r.getObject(i));
      }
      rows.add(Collections.unmodifiableList(row));
    }
    return new ArchiveTable(columns, rows);
  }

  /** A cell as text; empty where nothing is known. */
  public String text(int row, String column) {
    Object value = rows.get(row).get(columns.indexOf(column));
    return value == null ? "" : value.toString();
  }

  /** A cell as a number; NaN where nothing is known. */
  public double number(int row, String column) {
    Object value = rows.get(row).get(columns.indexOf(column));
    return value instanceof Number n ? n.doubleValue() : Double.NaN;
  }

  /** As comma-separated text after RFC 4180. */
  public String csv() {
    StringBuilder text = new StringBuilder();
    try (CSVPrinter printer = new CSVPrinter(text, CSVFormat.RFC4180)) {
      printer.printRecord(columns);
      for (List<Object> row : rows) {
        for (Object value : row) {
          printer.print(value instanceof String s ? harmless(s) : value);
        }
        printer.println();
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return text.toString();
  }

  /** Against texts that a spreadsheet takes for formulas: OWASP, "CSV Injection". */
  private static String harmless(String text) {
    return !text.isEmpty() && "=+-@\t\r".indexOf(text.charAt(0)) >= 0 ? "'" + text : text;
  }
}
