package org.diesurvey.archive;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import org.diesurvey.report.SurveyFolder;

/**
 * The description that makes an archive a research object: RO-Crate Metadata Specification 1.1
 * (w3id.org/ro/crate/1.1), JSON-LD with the metadata descriptor, the root data entity with its
 * required name, description, datePublished and license, and a data entity for every file it names.
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

  /** The document. */
  static String text(Path root, Instant created) {
    ObjectNode document = WorkerMessage.JSON.createObjectNode();
    CrateMetadata crate = new CrateMetadata(document, created);
    crate.file(root, ArchiveFolder.DATABASE, "All tables", "application/vnd.sqlite3");
    crate.file(root, IndexPage.FILE, "Index of the archive", "text/html");
    crate.file(root, BatchPages.REPORT, "Summary over dies", "text/html");
    crate.file(root, BatchPages.REPORT_PDF, "Summary over dies", "application/pdf");
    String tables = TableFiles.FOLDER + "/";
    crate.file(root, tables + TableFiles.DESCRIPTION, "Fields of the tables", "application/json");
    for (String table : TableFiles.TABLES.keySet()) {
      crate.file(root, tables + table + ".csv", "Table: " + table, "text/csv");
    }
    ArchiveTable photos =
        ArchiveTable.read(
            root,
            "SELECT folder, file_name, software_version FROM photo ORDER BY folder",
            List.of());
    for (int i = 0; i < photos.rows().size(); i++) {
      crate.survey(photos.text(i, "folder"), photos.text(i, "file_name"));
    }
    return document.toPrettyString().replace("\r\n", "\n") + "\n";
  }

  private void file(Path root, String path, String name, String format) {
    if (Files.isRegularFile(root.resolve(path))) {
      parts.addObject().put("@id", path);
      graph
          .addObject()
          .put("@id", path)
          .put("@type", "File")
          .put("name", name)
          .put("encodingFormat", format);
    }
  }

  private void survey(String folder, String photo) {
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
        .put("encodingFormat", "application/json");
  }
}
