package org.diesurvey.estimates;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;

/** Reads density tables, strictly: every fault names its line and its remedy. */
final class DensityCsv {
  private static final List<String> REQUIRED =
      List.of("node_nm", "quantity", "low", "centre", "high", "obtained", "source");
  private static final Set<String> KNOWN =
      Set.of("node_nm", "quantity", "low", "centre", "high", "obtained", "source", "note");
  private static final Set<String> OBTAINED = Set.of("found", "derived", "memory", "measured");

  private final String place;
  private final Map<String, Integer> columns = new HashMap<>();

  private DensityCsv(String place) {
    this.place = place;
  }

  /**
   * @param text the file
   * @param place its name, for messages
   * @throws DieInputException DENSITIES_INVALID
   */
  static List<DensityRow> rows(String text, String place) {
    return new DensityCsv(place).read(text);
  }

  private List<DensityRow> read(String text) {
    List<List<String>> lines;
    try {
      lines = CsvRows.of(text.startsWith("\ufeff") ? text.substring(1) : text);
    } catch (IllegalArgumentException e) {
      throw refused(e.getMessage() + "; close it, or write the field without quotes");
    }
    if (lines.isEmpty()) {
      throw refused("the file is empty; the first line names the columns " + REQUIRED);
    }
    header(lines.get(0));
    List<DensityRow> rows = new ArrayList<>();
    Set<String> seen = new HashSet<>();
    for (int i = 1; i < lines.size(); i++) {
      DensityRow row = row(lines.get(i), i + 1);
      if (!seen.add(row.quantity() + " " + row.nodeNm())) {
        throw refused(
            "row " + (i + 1) + " states " + row.quantity().label() + " of the same node again");
      }
      rows.add(row);
    }
    if (rows.isEmpty()) {
      throw refused("there is no row below the names of the columns");
    }
    return rows;
  }

  private void header(List<String> names) {
    for (int i = 0; i < names.size(); i++) {
      if (!KNOWN.contains(names.get(i))) {
        throw refused(
            "the column \"" + names.get(i) + "\" is unknown; the columns are " + REQUIRED);
      }
      if (columns.put(names.get(i), i) != null) {
        throw refused("the column " + names.get(i) + " stands there twice");
      }
    }
    List<String> missing = REQUIRED.stream().filter(c -> !columns.containsKey(c)).toList();
    if (!missing.isEmpty()) {
      throw refused("the first line lacks the columns " + missing + "; add them");
    }
  }

  private DensityRow row(List<String> fields, int line) {
    if (fields.size() != columns.size()) {
      throw refused(
          "row "
              + line
              + " has "
              + fields.size()
              + " fields for "
              + columns.size()
              + " columns; put fields with commas into quotes");
    }
    String label = field(fields, "quantity");
    DensityQuantity quantity =
        DensityQuantity.ofLabel(label)
            .orElseThrow(
                () -> refused("row " + line + ": the quantity \"" + label + "\" is unknown"));
    String node = field(fields, "node_nm");
    if (node.equals("any") == quantity.perNode()) {
      throw refused(
          "row "
              + line
              + ": node_nm must be "
              + (quantity.perNode() ? "a process node in nm" : "\"any\"")
              + " for "
              + label
              + ", was \""
              + node
              + "\"");
    }
    OptionalDouble nodeNm =
        quantity.perNode()
            ? OptionalDouble.of(positive(fields, "node_nm", line))
            : OptionalDouble.empty();
    double low = positive(fields, "low", line);
    double centre = positive(fields, "centre", line);
    double high = positive(fields, "high", line);
    if (low > centre || centre > high) {
      throw refused(
          "row "
              + line
              + ": low, centre and high must ascend, were "
              + low
              + ", "
              + centre
              + ", "
              + high);
    }
    String obtained = field(fields, "obtained");
    if (!OBTAINED.contains(obtained)) {
      throw refused(
          "row "
              + line
              + ": obtained must be found, derived, memory or measured, was \""
              + obtained
              + "\"");
    }
    String source = field(fields, "source");
    if (source.isEmpty()) {
      throw refused("row " + line + ": the source is missing; say where the figures come from");
    }
    return new DensityRow(
        nodeNm, quantity, new LogRange(low, centre, high), obtained, source, field(fields, "note"));
  }

  private String field(List<String> fields, String column) {
    Integer at = columns.get(column);
    return at == null ? "" : fields.get(at);
  }

  private double positive(List<String> fields, String column, int line) {
    String text = field(fields, column);
    double v;
    try {
      v = Double.parseDouble(text);
    } catch (NumberFormatException e) {
      throw refused("row " + line + ": " + column + " is not a number, was \"" + text + "\"");
    }
    if (!(v > 0) || Double.isInfinite(v)) {
      throw refused("row " + line + ": " + column + " must be above 0, was " + text);
    }
    return v;
  }

  private DieInputException refused(String why) {
    return new DieInputException(
        Reason.DENSITIES_INVALID, place + ": this density table cannot be used: " + why + ".");
  }
}
