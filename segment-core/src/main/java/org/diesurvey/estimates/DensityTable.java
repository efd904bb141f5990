package org.diesurvey.estimates;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.TreeSet;
import org.diesurvey.BoundedFile;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.Supported;

/**
 * Reference densities by process node: bit cells, gate densities, row heights, each with low,
 * centre, high, source and how it was obtained. Between two nodes of the table values are
 * interpolated, logarithm over logarithm; outside its nodes there are none.
 */
@Supported
public final class DensityTable {
  /** Name of the shipped table. */
  public static final String SHIPPED_NAME = "Diesurvey densities";

  /** Version of the shipped table; raised with every change of a figure. */
  public static final String SHIPPED_VERSION = "1";

  /** Largest file of rows that is read, bytes; the shipped table has some 20,000. */
  private static final long MOST_BYTES = 4L << 20;

  private final String name;
  private final String version;
  private final List<DensityRow> rows;

  private DensityTable(String name, String version, List<DensityRow> rows) {
    this.name = name;
    this.version = version;
    this.rows = List.copyOf(rows);
  }

  /** The shipped table. */
  public static DensityTable shipped() {
    return Shipped.TABLE;
  }

  private static final class Shipped {
    static final DensityTable TABLE =
        new DensityTable(
            SHIPPED_NAME,
            SHIPPED_VERSION,
            DensityCsv.rows(resource("densities.csv"), "densities.csv"));
  }

  /** Text of a resource beside this class. */
  static String resource(String name) {
    try (var in = DensityTable.class.getResourceAsStream(name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /**
   * This table with the rows of a file: a row of the file replaces that of the same node and
   * quantity, others are added. The version then names the file and its SHA-256.
   *
   * @param file CSV with the columns node_nm, quantity, low, centre, high, obtained, source and
   *     perhaps note
   * @throws DieInputException DENSITIES_INVALID, naming the row
   */
  public DensityTable with(Path file) {
    byte[] bytes;
    try {
      bytes = BoundedFile.bytes(file, MOST_BYTES, Reason.DENSITIES_INVALID);
    } catch (IOException e) {
      throw new DieInputException(
          Reason.DENSITIES_INVALID,
          file + ": there is no density table here that can be read; check the name.",
          e);
    }
    List<DensityRow> more = DensityCsv.rows(new String(bytes, StandardCharsets.UTF_8), file + "");
    TreeMap<String, DensityRow> all = new TreeMap<>();
    rows.forEach(r -> all.put(key(r), r));
    more.forEach(r -> all.put(key(r), r));
    String added = file.getFileName() + ", SHA-256 " + sha256(bytes).substring(0, 16);
    return new DensityTable(name, version + " with " + added, new ArrayList<>(all.values()));
  }

  private static String key(DensityRow r) {
    return r.quantity() + String.format(Locale.ROOT, " %012.3f", r.nodeNm().orElse(0));
  }

  private static String sha256(byte[] bytes) {
    try {
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }

  /** Name of the table. */
  public String name() {
    return name;
  }

  /** Version, with the user's file where one was added. */
  public String version() {
    return version;
  }

  /** All rows. */
  public List<DensityRow> rows() {
    return rows;
  }

  /** Nodes that have a bit cell or a gate density, nm, finest first. */
  public List<Double> nodes() {
    TreeSet<Double> nodes = new TreeSet<>();
    rows.forEach(r -> r.nodeNm().ifPresent(nodes::add));
    return List.copyOf(nodes);
  }

  /**
   * Makes sure that the table holds a node, or one to each side of it.
   *
   * @throws DieInputException NODE_NOT_IN_TABLE
   */
  public void requireNode(double nodeNm) {
    List<Double> nodes = nodes();
    double finest = nodes.get(0);
    double coarsest = nodes.get(nodes.size() - 1);
    if (!(nodeNm >= finest && nodeNm <= coarsest)) {
      throw new DieInputException(
          Reason.NODE_NOT_IN_TABLE,
          String.format(
              Locale.ROOT,
              "The process node %s nm is not in the density table (%s, version %s), which goes from"
                  + " %s to %s nm: state another node or none, or add rows for it with"
                  + " --densities FILE.",
              plain(nodeNm),
              name,
              version,
              plain(coarsest),
              plain(finest)));
    }
  }

  /** A number with at most four significant digits and no needless decimals. */
  static String plain(double v) {
    return java.math.BigDecimal.valueOf(v)
        .round(new java.math.MathContext(4, java.math.RoundingMode.HALF_EVEN))
        .stripTrailingZeros()
        .toPlainString();
  }

  /** Value of a quantity that does not depend on the node. */
  LogRange any(DensityQuantity quantity) {
    return rows.stream()
        .filter(r -> r.quantity() == quantity)
        .map(DensityRow::range)
        .findFirst()
        .orElseThrow();
  }

  /** Value of a quantity at a node; empty outside the rows of that quantity. */
  public Optional<LogRange> at(DensityQuantity quantity, double nodeNm) {
    TreeMap<Double, LogRange> known = new TreeMap<>();
    for (DensityRow r : rows) {
      OptionalDouble n = r.nodeNm();
      if (r.quantity() == quantity && n.isPresent()) {
        known.put(n.getAsDouble(), r.range());
      }
    }
    var below = known.floorEntry(nodeNm);
    var above = known.ceilingEntry(nodeNm);
    if (below == null || above == null) {
      return Optional.empty();
    }
    if (below.getKey().equals(above.getKey())) {
      return Optional.of(below.getValue());
    }
    double t = Math.log(nodeNm / below.getKey()) / Math.log(above.getKey() / below.getKey());
    LogRange a = below.getValue();
    LogRange b = above.getValue();
    return Optional.of(
        new LogRange(
            between(a.low(), b.low(), t),
            between(a.centre(), b.centre(), t),
            between(a.high(), b.high(), t)));
  }

  private static double between(double a, double b, double t) {
    return Math.exp((1 - t) * Math.log(a) + t * Math.log(b));
  }
}
