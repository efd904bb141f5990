package org.diesurvey.archive.pages;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.diesurvey.archive.query.ArchiveTable;
import org.diesurvey.archive.store.ArchiveFolder;
import org.diesurvey.report.SurveyFolder;

/**
 * The description that makes an archive a research object: RO-Crate Metadata Specification 1.1
 * (w3id.org/ro/crate/1.1), JSON-LD with the metadata descriptor, the root data entity with its
 * required name, description, datePublished and license, a data entity for every file it names with
 * its size, and the program that made them (section "Provenance of entities").
 */
final class CrateMetadata {
  /** Name that the specification requires. */
  static final String FILE = "ro-crate-metadata.json";

  private final ArrayNode graph;
  private final ArrayNode parts;

  private CrateMetadata(ObjectNode document, Instant created) {
    document.put("@context", "https://w3id.org/ro/crate/1.1/context");
    graph = document.putArray("@graph");
    ObjectNode descriptor = graph.addObject();
    descriptor.put("@id", FILE).put("@type", "CreativeWork");
    descriptor.putObject("conformsTo").put("@id", "https://w3id.org/ro/crate/1.1");
    descriptor.putObject("about").put("@id", "./");
    ObjectNode root = graph.addObject();
    root.put("@id", "./").put("@type", "Dataset");
    root.put("name", "Archive of die surveys");
    root.put(
        "description",
        "Surveys of photographs of bare, delayered dies: regions, areas with uncertainty, classes"
            + " with confidence. All values are estimates from pictures.");
    root.put("datePublished", created.toString().substring(0, 10));
    root.putObject("license").put("@id", "#licence");
    ObjectNode licence = graph.addObject();
    licence.put("@id", "#licence").put("@type", "CreativeWork");
    licence.put("name", "Not stated");
    licence.put(
        "description",
        "The owner of the photographs has not stated a licence; ask before you pass them on.");
    parts = root.putArray("hasPart");
  }

  /**
   * The document.
   *
   * @param pages folder in which the pages and tables lie before they are in place
   */
  static String text(Path root, Path pages, Instant created) {
    ObjectNode document = TableFiles.JSON.createObjectNode();
    CrateMetadata crate = new CrateMetadata(document, created);
    crate.file(root, ArchiveFolder.DATABASE, "All tables", "application/vnd.sqlite3");
    crate.file(pages, IndexPage.FILE, "Index of the archive", "text/html");
    crate.file(pages, BatchPages.REPORT, "Summary over dies", "text/html");
    crate.file(pages, BatchPages.REPORT_PDF, "Summary over dies", "application/pdf");
    String tables = TableFiles.FOLDER + "/";
    crate.file(pages, tables + TableFiles.DESCRIPTION, "Fields of the tables", "application/json");
    for (String table : TableFiles.TABLES.keySet()) {
      crate.file(pages, tables + table + ".csv", "Table: " + table, "text/csv");
    }
    ArchiveTable photos =
        ArchiveTable.read(
            root,
            "SELECT p.folder, p.file_name, p.software_version, f.bytes FROM photo p LEFT JOIN file"
                + " f ON f.photo_id = p.photo_id AND f.name = ? ORDER BY p.folder",
            List.of(SurveyFolder.SURVEY));
    Set<String> versions = new TreeSet<>();
    for (int i = 0; i < photos.rows().size(); i++) {
      crate.survey(photos, i);
      versions.add(photos.text(i, "software_version"));
    }
    versions.forEach(version -> crate.program(version, created));
    return document.toPrettyString().replace("\r\n", "\n") + "\n";
  }

  private void file(Path root, String path, String name, String format) {
    if (Files.isRegularFile(root.resolve(path))) {
      parts.addObject().put("@id", path);
      ObjectNode file = graph.addObject();
      file.put("@id", path).put("@type", "File").put("name", name).put("encodingFormat", format);
      if (!path.equals(ArchiveFolder.DATABASE)) {
        // The size of the database depends on the order of work.
        file.put("contentSize", size(root.resolve(path)));
      }
    }
  }

  /** Bytes as text, as the specification writes them. */
  private static String size(Path file) {
    try {
      return Long.toString(Files.size(file));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The program, and the action by which it made the archive. */
  private void program(String version, Instant created) {
    String id = "#diesurvey-" + version;
    graph
        .addObject()
        .put("@id", id)
        .put("@type", "SoftwareApplication")
        .put("name", "Diesurvey")
        .put("version", version);
    ObjectNode action = graph.addObject();
    action.put("@id", "#surveys-" + version).put("@type", "CreateAction");
    action.put("name", "Surveys by Diesurvey " + version);
    action.put("endTime", created.toString());
    action.putObject("instrument").put("@id", id);
    action.putObject("result").put("@id", "./");
  }

  private void survey(ArchiveTable photos, int row) {
    String folder = photos.text(row, "folder");
    String photo = photos.text(row, "file_name");
    String id = ArchiveFolder.PHOTOS + "/" + folder + "/";
    parts.addObject().put("@id", id);
    ObjectNode survey = graph.addObject();
    survey.put("@id", id).put("@type", "Dataset").put("name", "Survey of " + photo);
    String document = id + SurveyFolder.SURVEY;
    survey.putArray("hasPart").addObject().put("@id", document);
    graph
        .addObject()
        .put("@id", document)
        .put("@type", "File")
        .put("name", "Survey document of " + photo)
        .put("encodingFormat", "application/json")
        .put("contentSize", photos.text(row, "bytes"));
  }
}
