package org.diesurvey.archive.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.OptionalInt;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.diesurvey.DieInputException;
import org.diesurvey.archive.BatchListener;
import org.diesurvey.archive.BatchPhoto;
import org.diesurvey.archive.BatchProgress;
import org.diesurvey.archive.pages.ArchivePages;
import org.diesurvey.archive.query.ArchiveTable;
import org.diesurvey.archive.store.ArchiveFolder;
import org.diesurvey.files.Checksums;
import org.diesurvey.files.Disk;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class BatchRunTest {
  @TempDir private Path folder;
  private Path archive;
  private CopyingSurveyor surveyor;
  private List<BatchPhoto> photos;

  @BeforeEach
  void prepare() throws IOException {
    archive = folder.resolve("archive");
    surveyor = new CopyingSurveyor(SampleArchive.survey(folder), 0, "1");
    photos = SampleArchive.photos(folder.resolve("photos"), 6);
  }

  private BatchProgress run() {
    return new BatchRun(archive, surveyor, 2, 1L << 30, SampleArchive.MOMENT)
        .run(photos, BatchListener.SILENT);
  }

  @Test
  void badAndSlowPhotos_neverStopTheOthers() throws IOException {
    Files.writeString(photos.get(0).file(), "bad");
    Files.writeString(photos.get(1).file(), "fail");
    BatchProgress p = run();
    assertEquals(4, p.surveyed());
    assertEquals(1, p.rejected());
    assertEquals(1, p.failed());
    ArchiveTable lost =
        ArchiveTable.read(archive, "SELECT * FROM not_surveyed ORDER BY path", List.of());
    assertEquals("FORMAT_UNKNOWN", lost.text(0, "reason"));
    assertEquals("TIME_LIMIT", lost.text(1, "reason"));
  }

  @Test
  void secondRun_doesOnlyWhatFailedOrChanged() throws IOException {
    Files.writeString(photos.get(0).file(), "bad");
    Files.writeString(photos.get(1).file(), "fail");
    run();
    assertEquals(6, surveyor.calls.get());
    Files.writeString(photos.get(2).file(), "photograph of another die");
    BatchProgress p = run();
    assertEquals(8, surveyor.calls.get(), "the failed and the changed one");
    assertEquals(3, p.unchanged());
    assertEquals(1, p.rejected());
  }

  @Test
  void otherPlaneOfAFile_isSurveyedAgain() throws IOException {
    run();
    photos.set(2, photos.get(2).withPlane(OptionalInt.of(2)));
    BatchProgress p = run();
    assertEquals(1, p.surveyed());
    assertEquals(5, p.unchanged());
  }

  @Test
  void otherVersion_surveysEverythingAgain() throws IOException {
    run();
    surveyor = new CopyingSurveyor(SampleArchive.survey(folder), 0, "2");
    assertEquals(6, run().surveyed());
    assertEquals(
        6, ArchiveTable.read(archive, "SELECT * FROM surveyed_photo", List.of()).rows().size());
  }

  @Test
  void twoFilesOfTheSameBytes_shareOneSurvey() throws IOException {
    Files.copy(
        photos.get(0).file(),
        photos.get(1).file(),
        java.nio.file.StandardCopyOption.REPLACE_EXISTING);
    BatchProgress p = run();
    assertEquals(5, p.surveyed());
    assertEquals(1, p.unchanged());
    ArchiveTable t = ArchiveTable.find(archive, "file = die-000.png or file = die-001.png");
    assertEquals(2, t.rows().size());
    assertEquals(t.text(0, "folder"), t.text(1, "folder"));
  }

  @Test
  void deletedFolder_isMadeAgain_andCheckIsContentThen() throws IOException {
    run();
    Path one = archive.resolve("photos").resolve(folders().get(0));
    Files.delete(one.resolve("survey.json"));
    Files.writeString(
        archive.resolve("photos").resolve(folders().get(1)).resolve("regions.csv"), "forged");
    assertEquals(
        List.of(ArchiveCheck.Fault.MISSING, ArchiveCheck.Fault.ALTERED),
        ArchiveCheck.of(archive).findings().stream().map(ArchiveCheck.Finding::fault).toList());
    Disk.removeMade(one);
    Disk.removeMade(archive.resolve("photos").resolve(folders().get(1)));
    assertEquals(2, run().surveyed());
    assertEquals(List.of(), ArchiveCheck.of(archive).findings());
  }

  @Test
  void summary_leadsToEverySurveyAndToOutliers() throws Exception {
    run();
    Path database = archive.resolve(ArchiveFolder.DATABASE);
    try (Connection c = DriverManager.getConnection("jdbc:sqlite:" + database);
        Statement s = c.createStatement()) {
      s.execute(
          "UPDATE class_total SET share = 0.99 WHERE class = 'memory array' AND photo_id ="
              + " (SELECT max(photo_id) FROM photo)");
      s.execute(
          "UPDATE class_total SET share = 0.01 WHERE class = 'memory array' AND photo_id <>"
              + " (SELECT max(photo_id) FROM photo)");
    }
    Path to = Files.createDirectory(folder.resolve("pages"));
    ArchivePages.ALL.make(archive, to, SampleArchive.MOMENT);
    String page = Files.readString(to.resolve("summary.html"));
    Matcher link = Pattern.compile("href=\"(photos/[^\"]+)\"").matcher(page);
    Set<String> found = new HashSet<>();
    while (link.find()) {
      found.add(link.group(1));
      assertTrue(Files.isDirectory(archive.resolve(link.group(1)).getParent()), link.group(1));
    }
    assertEquals(6, found.size());
    assertTrue(
        page.matches("(?s).*<td><a href=\"photos/[^\"]+/report.html\">[^<]+</a></td>.*99.*"), page);
  }

  @Test
  void alteredPagesAndLists_areFound_andOnceMovedAwayMadeAgain() throws IOException {
    run();
    Files.writeString(archive.resolve("tables/photos.csv"), "forged");
    Files.delete(archive.resolve("summary.pdf"));
    Path list = archive.resolve("photos").resolve(folders().get(0)).resolve("checksums.sha256");
    String sums = Files.readString(list);
    Files.writeString(list, sums.replace('a', 'b'));
    assertEquals(
        List.of(
            "photos/" + folders().get(0) + "/checksums.sha256", "summary.pdf", "tables/photos.csv"),
        ArchiveCheck.of(archive).findings().stream().map(ArchiveCheck.Finding::path).toList());
    Files.writeString(list, sums);
    DieInputException e =
        assertThrows(
            DieInputException.class, () -> ArchivePages.write(archive, SampleArchive.MOMENT));
    assertTrue(e.getMessage().contains("photos.csv"), e.getMessage());
    assertThrows(DieInputException.class, this::run);
    assertEquals("forged", Files.readString(archive.resolve("tables/photos.csv")));
    Files.move(archive.resolve("tables/photos.csv"), folder.resolve("mine.csv"));
    ArchivePages.write(archive, SampleArchive.MOMENT);
    assertEquals(List.of(), ArchiveCheck.of(archive).findings());
  }

  @Test
  void cancelledRun_keepsWhatIsDone_andIsContinued() {
    BatchRun run = new BatchRun(archive, surveyor, 1, 1L << 30, SampleArchive.MOMENT);
    BatchProgress p = run.run(photos, (outcome, progress) -> run.cancel());
    assertTrue(p.done() >= 1 && p.done() < 6, "done " + p.done());
    BatchProgress rest = run();
    assertEquals(p.surveyed(), rest.unchanged());
    assertEquals(6, rest.done());
  }

  @Test
  void secondRunAtTheSameTime_isRefused() {
    List<String> messages = new ArrayList<>();
    new BatchRun(archive, surveyor, 1, 1L << 30, SampleArchive.MOMENT)
        .run(
            photos,
            (outcome, progress) -> {
              if (messages.isEmpty()) {
                messages.add(assertThrows(DieInputException.class, this::run).getMessage());
              }
            });
    assertTrue(messages.get(0).contains("another run"), messages.toString());
  }

  /** A backup of the kind that {@code cp -al} makes. */
  @Test
  void backupByHardLinks_staysAsItWas() throws IOException {
    run();
    Path backup = folder.resolve("backup.sqlite");
    try {
      Files.createLink(backup, archive.resolve("archive.sqlite"));
    } catch (UnsupportedOperationException e) {
      Assumptions.abort("this disk knows no hard links");
    }
    String before = Checksums.of(backup);
    Files.writeString(photos.get(0).file(), "another photograph");
    assertEquals(1, run().surveyed());
    assertEquals(before, Checksums.of(backup));
  }

  @Test
  void folderOfSomethingElse_isLeftAlone() throws IOException {
    Files.createDirectories(archive);
    Files.writeString(archive.resolve("letter.txt"), "mine");
    assertThrows(DieInputException.class, this::run);
    assertEquals("mine", Files.readString(archive.resolve("letter.txt")));
  }

  @Test
  void sqlCannotChangeTheArchive() {
    run();
    for (String sql :
        List.of(
            "DELETE FROM photo RETURNING photo_id",
            "ATTACH '" + folder.resolve("other.sqlite") + "' AS other",
            "PRAGMA user_version = 3")) {
      try {
        ArchiveTable.read(archive, sql, List.of());
      } catch (DieInputException e) {
        // Refused, as it should be; a pragma may be passed over in silence.
      }
    }
    assertEquals(
        6L,
        ((Number)
                ArchiveTable.read(archive, "SELECT count(*) AS n FROM photo", List.of())
                    .rows()
                    .get(0)
                    .get(0))
            .longValue());
    assertFalse(Files.exists(folder.resolve("other.sqlite")));
  }

  /** The program sqlite3 of the SQLite project, and sha256sum of GNU coreutils. */
  @Test
  void stockPrograms_readTheArchive() throws Exception {
    run();
    Assumptions.assumeTrue(
        Files.isExecutable(Path.of("/usr/bin/sqlite3")), "sqlite3 is not installed");
    assertEquals(
        "ok\n6\n",
        output(
            archive,
            "/usr/bin/sqlite3",
            "archive.sqlite",
            "PRAGMA integrity_check; SELECT count(*) FROM surveyed_photo WHERE memory_share >"
                + " 0.4;"));
    Assumptions.assumeTrue(
        Files.isExecutable(Path.of("/usr/bin/sha256sum")), "sha256sum is not installed");
    String checked =
        output(
            archive.resolve("photos").resolve(folders().get(0)),
            "/usr/bin/sha256sum",
            "-c",
            "checksums.sha256");
    assertEquals("photograph.json: OK\nregions.csv: OK\nsurvey.json: OK\n", checked);
  }

  private static String output(Path where, String... command) throws Exception {
    Process p =
        new ProcessBuilder(command).directory(where.toFile()).redirectErrorStream(true).start();
    String text = new String(p.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertEquals(0, p.waitFor(), text);
    return text;
  }

  private List<String> folders() {
    ArchiveTable t = ArchiveTable.read(archive, "SELECT folder FROM photo ORDER BY 1", List.of());
    return t.rows().stream().map(r -> r.get(0).toString()).toList();
  }

  /** Table Schema of Frictionless: names in order, values of the stated types. */
  @Test
  void tables_agreeWithTheirDescription() throws IOException {
    run();
    JsonNode data =
        new ObjectMapper().readTree(Files.readString(archive.resolve("tables/datapackage.json")));
    assertEquals("tabular-data-package", data.get("profile").asText());
    for (JsonNode r : data.get("resources")) {
      assertTrue(r.get("name").asText().matches("[a-z0-9._-]+"), r.get("name").asText());
      Path file = archive.resolve("tables").resolve(r.get("path").asText());
      assertEquals("sha256:" + Checksums.of(file), r.get("hash").asText());
      List<String> names = new ArrayList<>();
      r.get("schema").get("fields").forEach(f -> names.add(f.get("name").asText()));
      CSVFormat format = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();
      try (CSVParser rows = CSVParser.parse(file, StandardCharsets.UTF_8, format)) {
        assertEquals(names, rows.getHeaderNames());
        for (CSVRecord row : rows) {
          for (JsonNode f : r.get("schema").get("fields")) {
            String v = row.get(f.get("name").asText());
            boolean fits =
                v.isEmpty()
                    || switch (f.get("type").asText()) {
                      case "integer" -> v.matches("-?[0-9]+");
                      case "number" -> !Double.isNaN(Double.parseDouble(v));
                      default -> "=+-@".indexOf(v.charAt(0)) < 0;
                    };
            assertTrue(fits, f + " " + v);
          }
        }
      }
    }
  }
}
