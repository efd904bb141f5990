package org.diesurvey.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.diesurvey.archive.run.SampleArchive;
import org.diesurvey.comparison.SmallComparison;
import org.diesurvey.comparison.document.Comparison;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.report.page.ComparisonPage;
import org.diesurvey.report.page.ReportPage;
import org.diesurvey.report.picture.ComparisonStill;
import org.diesurvey.report.picture.OverlayPicture;
import org.diesurvey.report.picture.PhotoPyramid;
import org.diesurvey.report.picture.RegionLook;
import org.diesurvey.report.picture.RegisteredPictures;
import org.diesurvey.survey.Survey;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.CleanupMode;
import org.junit.jupiter.api.io.TempDir;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.Polygon;

/**
 * Works at real reports in Debian's Chromium, driven by Playwright; the tests themselves are in
 * src/test/browser. Skipped where Node, the browser or the tools (npm ci in that folder) are
 * absent.
 */
@Tag("slow")
class ReportBrowserTest {
  private static final Path TOOLS = Path.of("src/test/browser").toAbsolutePath();
  private static final String HOSTILE =
      "\"><script>alert(1)</script><img src=x onerror='alert(2)'>\u202E&.png";
  private static final ObjectMapper MAPPER = new ObjectMapper();

  @TempDir(cleanup = CleanupMode.ALWAYS)
  static Path folder;

  private static Optional<Path> onPath(String... names) {
    for (String name : names) {
      for (String at : System.getenv("PATH").split(File.pathSeparator)) {
        Path file = Path.of(at, name);
        if (Files.isExecutable(file)) {
          return Optional.of(file);
        }
      }
    }
    return Optional.empty();
  }

  private static void write(String name, Survey survey, PixelSource photo, PhotoPyramid pyramid)
      throws IOException {
    ReportPage.write(
        survey,
        OverlayPicture.of(survey, photo),
        pyramid,
        RegionLook.of(survey, photo),
        Instant.EPOCH,
        folder.resolve(name));
  }

  private static void writeComparison(String name, Comparison comparison) throws IOException {
    RegisteredPictures pictures = SmallPictures.of();
    ComparisonPage.write(
        comparison,
        SmallComparison.map(),
        pictures,
        ComparisonStill.of(comparison, pictures),
        Instant.EPOCH,
        folder.resolve(name));
  }

  @TestFactory
  Stream<DynamicTest> browser() throws IOException, InterruptedException {
    Optional<Path> node = onPath("node", "nodejs");
    Optional<Path> browser = onPath("chromium", "chromium-browser", "google-chrome");
    assumeTrue(node.isPresent(), "skipped: no node on the path");
    assumeTrue(browser.isPresent(), "skipped: no Chromium on the path");
    assumeTrue(
        Files.isDirectory(TOOLS.resolve("node_modules/playwright-core")),
        "skipped: run npm ci in segment-core/src/test/browser first");
    PixelSource photo = BenchDie.photo();
    PhotoPyramid pyramid = PhotoPyramid.of(photo);
    Path written = folder.resolve("written");
    SurveyFolder.write(BenchDie.survey(true, "bench.png"), photo, written, Instant.EPOCH);
    Files.copy(written.resolve(SurveyFolder.REPORT), folder.resolve("bench.html"));
    write("unscaled.html", BenchDie.survey(false, "bench.png"), photo, pyramid);
    write("damaged.html", BenchDie.survey(true, "damaged.png", 6), photo, pyramid);
    write("hostile.html", BenchDie.survey(true, HOSTILE), photo, pyramid);
    PhotoPyramid half = PhotoPyramid.of(photo, 600_000, 256);
    write("reduced.html", BenchDie.survey(true, "reduced.png"), photo, half);
    writeComparison("compare.html", SmallComparison.of("first.png", "second.png"));
    writeComparison("compare-none.html", SmallComparison.unchanged("first.png", "second.png"));
    Comparison hostile = SmallComparison.of(HOSTILE, HOSTILE);
    writeComparison("compare-hostile.html", hostile);
    Files.writeString(
        folder.resolve("revisions.html"),
        new RevisionOverview(
                List.of(HOSTILE, "b.png", "c.png"), List.of(Optional.of(hostile), Optional.empty()))
            .html(Instant.EPOCH));
    Files.writeString(
        folder.resolve("archive.html"),
        SampleArchive.indexPage(Files.createDirectory(folder.resolve("sample"))));
    List<DynamicTest> tests = new ArrayList<>();
    String java = System.getProperty("java.home");
    for (String line : run(node.get(), "run.mjs", browser.get().toString(), java)) {
      JsonNode result = MAPPER.readTree(line);
      String fault = result.get("fault").asText();
      tests.add(dynamicTest(result.get("name").asText(), () -> assertEquals("", fault)));
    }
    assertTrue(tests.size() > 30, "only " + tests.size() + " tests ran");
    tests.add(dynamicTest("saved outlines, read by JTS", ReportBrowserTest::savedOutlines));
    tests.add(dynamicTest("many edits lose nothing", () -> manyEdits(node.get())));
    return tests.stream();
  }

  /** Runs a program of the tools on the folder; the lines that it writes. */
  private static List<String> run(Path node, String program, String... arguments)
      throws IOException, InterruptedException {
    Path out = folder.resolve(program + "-results");
    Path complaints = folder.resolve(program + "-complaints");
    List<String> command = new ArrayList<>(List.of(node.toString(), program, folder.toString()));
    command.addAll(List.of(arguments));
    Process process =
        new ProcessBuilder(command)
            .directory(TOOLS.toFile())
            .redirectOutput(out.toFile())
            .redirectError(complaints.toFile())
            .start();
    boolean ended = process.waitFor(1800, TimeUnit.SECONDS);
    process.destroy();
    assertTrue(ended, "the browser tests hang");
    assertEquals(0, process.exitValue(), Files.readString(complaints));
    return Files.readAllLines(out);
  }

  /**
   * Sides and corners moved over their neighbours by the page's own functions: no region is lost
   * unsaid, and by a clipping library of another kind the areas add up.
   */
  private static void manyEdits(Path node) throws IOException, InterruptedException {
    int done = 0;
    for (String line : run(node, "edits.mjs", "300")) {
      JsonNode result = MAPPER.readTree(line);
      assertEquals(0, result.get("lost").size(), line);
      assertEquals(0, result.get("sums").asInt(), line);
      assertTrue(result.get("worst_um2").asDouble() <= 0.1, line);
      assertTrue(result.get("asked").asInt() > 0, line);
      done += result.get("done").asInt();
    }
    assertTrue(done > 100, "only " + done + " edits were done");
  }

  /** What was not touched is what regions.geojson says; what was touched is a sound polygon. */
  private static void savedOutlines() throws IOException {
    JsonNode saved = MAPPER.readTree(folder.resolve("saved.geojson").toFile());
    JsonNode ours = MAPPER.readTree(folder.resolve("written/regions.geojson").toFile());
    holds(ours.get("coordinate_frame"), saved.get("coordinate_frame"));
    holds(ours.get("photo"), saved.get("photo"));
    Map<String, JsonNode> found = new HashMap<>();
    ours.get("features").forEach(f -> found.put(f.get("id").asText(), f));
    Map<String, Double> areas = new HashMap<>();
    int same = 0;
    for (JsonNode f : saved.get("features")) {
      String id = f.get("id").asText();
      Polygon polygon = polygon(f.get("geometry").get("coordinates"));
      assertTrue(polygon.isValid(), id + " is no sound polygon");
      areas.put(id, polygon.getArea());
      ObjectNode properties = (ObjectNode) f.get("properties");
      if (properties.remove("outline").asText().equals("found")) {
        Polygon before = polygon(found.get(id).get("geometry").get("coordinates"));
        assertTrue(before.equalsExact(polygon), id + " is not as it was: " + polygon);
        holds(found.get(id).get("properties"), properties);
        same++;
      }
    }
    assertEquals(5, same, "MEM2, MAC1, PAD1, UNC1 and the bit-cell array");
    assertEquals(200 * 140, areas.get("MEM1"), 120, "its right side now on the picture's edge");
    assertEquals(
        540 * 140,
        areas.get("LOG1") + areas.get("MAC2"),
        20,
        "what MAC2 has is what the logic lost");
  }

  /** Every member of the one is in the other and says the same. */
  private static void holds(JsonNode ours, JsonNode saved) {
    assertTrue(!ours.isEmpty());
    ours.fields()
        .forEachRemaining(
            e -> {
              JsonNode other = saved.path(e.getKey());
              if (e.getValue().isNumber()) {
                assertEquals(e.getValue().doubleValue(), other.doubleValue(), 0.02, e.getKey());
              } else {
                assertEquals(e.getValue().asText(), other.asText(), e.getKey());
              }
            });
  }

  private static Polygon polygon(JsonNode rings) {
    GeometryFactory factory = new GeometryFactory();
    List<LinearRing> all = new ArrayList<>();
    for (JsonNode ring : rings) {
      List<Coordinate> corners = new ArrayList<>();
      ring.forEach(c -> corners.add(new Coordinate(c.get(0).asDouble(), c.get(1).asDouble())));
      all.add(factory.createLinearRing(corners.toArray(new Coordinate[0])));
    }
    return factory.createPolygon(all.get(0), all.subList(1, all.size()).toArray(new LinearRing[0]));
  }
}
