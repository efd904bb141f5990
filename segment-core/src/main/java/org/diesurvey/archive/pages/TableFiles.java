package org.diesurvey.archive.pages;

import static java.nio.charset.StandardCharsets.UTF_8;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.diesurvey.archive.query.ArchiveTable;
import org.diesurvey.archive.store.ArchiveFolder;
import org.diesurvey.files.Checksums;
import org.diesurvey.files.Disk;

/**
 * The tables of an archive as CSV (RFC 4180, UTF-8), with a description after the Frictionless Data
 * Package specification, version 1 (specs.frictionlessdata.io): profile tabular-data-package, one
 * resource for each table with its fields and their types.
 */
final class TableFiles {
  /** Folder of the tables. */
  static final String FOLDER = ArchiveFolder.TABLES;

  static final ObjectMapper JSON = new ObjectMapper();

  /** Name of the description. */
  static final String DESCRIPTION = "datapackage.json";

  /** Resources by name, each with its query; the order of rows does not depend on that of work. */
  static final Map<String, String> TABLES = tables();

  private TableFiles() {}

  private static Map<String, String> tables() {
    String own = "SELECT p.folder, x.* FROM %s x JOIN photo p USING (photo_id) ORDER BY p.folder";
    Map<String, String> t = new LinkedHashMap<>();
    t.put("photos", "SELECT * FROM surveyed_photo ORDER BY path");
    t.put("dies", "SELECT * FROM die ORDER BY die_name, revision");
    t.put("regions", String.format(own + ", region", "region"));
    t.put("class-totals", String.format(own + ", class, unclear_reason", "class_total"));
    t.put("estimates", String.format(own + ", amount", "estimate"));
    t.put("notices", String.format(own + ", notice", "notice"));
    t.put("not-surveyed", "SELECT * FROM not_surveyed ORDER BY path");
    return t;
  }

  /** Writes all tables of an archive and their description below a folder. */
  static void write(Path root, Path to) throws IOException {
    Path folder = Disk.folders(to.resolve(FOLDER));
    ObjectNode description = JSON.createObjectNode();
    description.put("profile", "tabular-data-package");
    description.put("name", "die-surveys");
    description.put("title", "Tables of an archive of die surveys");
    description.put(
        "description",
        "Areas in mm2, pitches in um per pixel, shares 0 to 1; columns u_... are standard"
            + " uncertainties (k = 1). All values are estimates from pictures.");
    ArrayNode resources = description.putArray("resources");
    for (var table : TABLES.entrySet()) {
      ArchiveTable rows = withoutNumbers(ArchiveTable.read(root, table.getValue(), List.of()));
      String text = rows.csv();
      Disk.write(folder.resolve(table.getKey() + ".csv"), text.getBytes(UTF_8));
      resources.add(resource(table.getKey(), rows, text));
    }
    Disk.write(
        folder.resolve(DESCRIPTION),
        (description.toPrettyString().replace("\r\n", "\n") + "\n").getBytes(UTF_8));
  }

  /** Numbers of rows depend on the order of work and mean nothing outside the database. */
  private static ArchiveTable withoutNumbers(ArchiveTable t) {
    List<Integer> kept =
        java.util.stream.IntStream.range(0, t.columns().size())
            .filter(i -> !t.columns().get(i).equals("photo_id"))
            .boxed()
            .toList();
    return new ArchiveTable(
        kept.stream().map(t.columns()::get).toList(),
        t.rows().stream().map(row -> pick(row, kept)).toList());
  }

  private static List<Object> pick(List<Object> row, List<Integer> kept) {
    List<Object> picked = new java.util.ArrayList<>();
    kept.forEach(i -> picked.add(row.get(i)));
    return picked;
  }

  private static ObjectNode resource(String name, ArchiveTable t, String text) {
    ObjectNode r = JSON.createObjectNode();
    r.put("profile", "tabular-data-resource");
    r.put("name", name);
    r.put("path", name + ".csv");
    r.put("format", "csv");
    r.put("mediatype", "text/csv");
    r.put("encoding", "utf-8");
    r.put("bytes", text.getBytes(UTF_8).length);
    r.put("hash", "sha256:" + Checksums.of(text));
    ObjectNode schema = r.putObject("schema");
    ArrayNode fields = schema.putArray("fields");
    for (int i = 0; i < t.columns().size(); i++) {
      fields.addObject().put("name", t.columns().get(i)).put("type", type(t, i));
    }
    schema.putArray("missingValues").add("");
    return r;
  }

  /** Text wins over numbers, numbers over whole numbers; a column without any value is text. */
  private static String type(ArchiveTable t, int column) {
    boolean any = false;
    boolean whole = true;
    for (List<Object> row : t.rows()) {
      Object v = row.get(column);
      if (v instanceof String) {
        return "string";
      }
      any |= v != null;
      whole &= v == null || v instanceof Integer || v instanceof Long;
    }
    return any ? (whole ? "integer" : "number") : "string";
  }
}
