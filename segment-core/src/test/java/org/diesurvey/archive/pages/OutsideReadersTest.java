package org.diesurvey.archive.pages;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.diesurvey.archive.BatchListener;
import org.diesurvey.archive.BatchPhoto;
import org.diesurvey.archive.query.ArchiveTable;
import org.diesurvey.archive.run.BatchRun;
import org.diesurvey.archive.run.CopyingSurveyor;
import org.diesurvey.archive.run.SampleArchive;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** An archive in the hands of programs that know nothing of this one. */
class OutsideReadersTest {
  private static final Path PACKAGES = Path.of("src", "test", "packages");

  @TempDir private Path folder;
  private Path archive;

  @BeforeEach
  void prepare() throws IOException {
    archive = folder.resolve("archive");
    List<BatchPhoto> photos = SampleArchive.photos(folder.resolve("photos"), 5);
    Files.writeString(photos.get(0).file(), "bad");
    new BatchRun(
            archive,
            new CopyingSurveyor(SampleArchive.survey(folder), 0, "1"),
            1,
            1L << 30,
            SampleArchive.MOMENT)
        .run(photos, BatchListener.SILENT);
  }

  /**
   * RO-Crate Metadata Specification 1.1, read for this check: "Root Data Entity" (descriptor, how
   * the root is found, what the root must have) and "Data Entities" (parts are linked from the
   * root; a file is of type File, a folder a Dataset with a slash at its end; paths are URIs).
   */
  @Test
  void crate_isAsTheSpecificationWantsIt() throws IOException {
    JsonNode crate =
        new ObjectMapper().readTree(Files.readString(archive.resolve("ro-crate-metadata.json")));
    assertEquals("https://w3id.org/ro/crate/1.1/context", crate.get("@context").asText());
    Map<String, JsonNode> byId = new HashMap<>();
    for (JsonNode n : crate.get("@graph")) {
      assertNull(byId.put(n.get("@id").asText(), n), "named twice: " + n.get("@id"));
    }
    JsonNode descriptor = byId.get("ro-crate-metadata.json");
    assertEquals("CreativeWork", descriptor.get("@type").asText());
    assertEquals("https://w3id.org/ro/crate/1.1", descriptor.get("conformsTo").get("@id").asText());
    JsonNode root = byId.get(descriptor.get("about").get("@id").asText());
    assertEquals("./", root.get("@id").asText());
    assertEquals("Dataset", root.get("@type").asText());
    assertEquals(LocalDate.of(2026, 1, 31), LocalDate.parse(root.get("datePublished").asText()));
    assertTrue(root.get("name").asText().length() > 5);
    assertTrue(root.get("description").asText().length() > 20);
    JsonNode licence = byId.get(root.get("license").get("@id").asText());
    assertTrue(licence.has("name") && licence.has("description"));
    Set<String> linked = new TreeSet<>();
    parts(root, byId, linked);
    for (JsonNode n : byId.values()) {
      String id = n.get("@id").asText();
      if (n.get("@type").asText().equals("File")) {
        assertTrue(linked.contains(id), "not linked from the root: " + id);
        if (n.has("contentSize")) {
          assertEquals(Files.size(archive.resolve(id)), n.get("contentSize").asLong(), id);
        }
      }
    }
    assertEquals(4, linked.stream().filter(id -> id.endsWith("/survey.json")).count());
    JsonNode action = byId.get("#surveys-0");
    assertEquals("CreateAction", action.get("@type").asText());
    assertEquals(
        "SoftwareApplication",
        byId.get(action.get("instrument").get("@id").asText()).get("@type").asText());
  }

  private void parts(JsonNode whole, Map<String, JsonNode> byId, Set<String> linked) {
    for (JsonNode part : whole.path("hasPart")) {
      String id = part.get("@id").asText();
      JsonNode entity = byId.get(id);
      assertNotNull(entity, id);
      assertEquals(id, URI.create(id).getRawPath(), "a relative URI path");
      Path file = archive.resolve(id);
      boolean folder = Files.isDirectory(file);
      assertTrue(folder || Files.isRegularFile(file), "is there: " + id);
      assertEquals(folder ? "Dataset" : "File", entity.get("@type").asText(), id);
      assertEquals(folder, id.endsWith("/"), id);
      linked.add(id);
      parts(entity, byId, linked);
    }
  }

  /** The package datapackage of npm, by the authors of the Frictionless specifications. */
  @Test
  void dataPackage_isValid_andEveryCellIsOfItsType() throws Exception {
    assumeTrue(
        Files.isDirectory(PACKAGES.resolve("node_modules")),
        "skipped: run npm ci --prefix segment-core/src/test/packages");
    Process p =
        new ProcessBuilder(
                "node", "check.mjs", archive.resolve("tables/datapackage.json").toString())
            .directory(PACKAGES.toFile())
            .redirectErrorStream(true)
            .start();
    String said = new String(p.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertEquals(0, p.waitFor(), said);
    JsonNode result = new ObjectMapper().readTree(said);
    assertTrue(result.get("valid").asBoolean(), said);
    for (Map.Entry<String, String> table : TableFiles.TABLES.entrySet()) {
      assertEquals(
          ArchiveTable.read(archive, table.getValue(), List.of()).rows().size(),
          result.get("rows").get(table.getKey()).asInt(),
          table.getKey());
    }
    assertEquals(4, result.get("rows").get("photos").asInt());
    assertEquals(1, result.get("rows").get("not-surveyed").asInt());
  }
}
