package org.diesurvey.report.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.ByteArrayOutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.preflight.parser.PreflightParser;
import org.apache.pdfbox.text.PDFTextStripper;
import org.diesurvey.comparison.SmallComparison;
import org.diesurvey.comparison.document.Comparison;
import org.diesurvey.report.RevisionOverview;
import org.diesurvey.report.SmallPictures;
import org.diesurvey.report.pdf.ComparisonPdf;
import org.diesurvey.report.picture.ComparisonStill;
import org.diesurvey.report.picture.RegisteredPictures;
import org.diesurvey.report.table.ChangeFiles;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.io.geojson.GeoJsonReader;

class ComparisonPageTest {
  private static final Instant CREATED = Instant.parse("2026-01-31T12:00:00Z");
  private static final String HOSTILE =
      "\"><script>alert(1)</script><img src=x onerror='a()'>&.png";

  @TempDir Path folder;

  private static String page(Comparison c) {
    RegisteredPictures pictures = SmallPictures.of();
    return ComparisonPage.html(
        c, SmallComparison.map(), pictures, ComparisonStill.of(c, pictures), CREATED);
  }

  private static String markup(String page) {
    return page.replaceAll("(?s)<style>.*?</style>|<script.*?</script>", "");
  }

  @Test
  void hostileNamesAndSentences_stayText() {
    String whole = page(SmallComparison.of(HOSTILE, HOSTILE));
    assertEquals(5, whole.split("<script").length - 1, "data, two photographs, viewer, program");
    assertEquals(5, whole.split("</script").length - 1, "none ends early");
    String page = markup(whole);
    assertFalse(page.contains("<img src=x"), "an element got in");
    assertFalse(page.contains("<i>happened"), "an element got in");
    assertTrue(page.contains("&lt;script&gt;alert(1)&lt;/script&gt;"));
    assertTrue(page.contains("Something &lt;i&gt;happened&lt;/i&gt; &amp; &quot;more&quot;."));
  }

  @Test
  void page_asksNothingOfTheNetwork_andNeedsNoExceptionOfItsPolicy() {
    String whole = page(SmallComparison.of("a.png", "b.png"));
    String ours = whole.replace(PageParts.viewer(), "").replace("http://www.w3.org/2000/svg", "");
    assertFalse(Pattern.compile("https?:").matcher(ours).find(), "a web address");
    assertFalse(markup(whole).contains(" style=\""), "the policy forbids styles on elements");
    assertTrue(whole.contains("default-src 'none'; img-src data:; style-src 'sha256-"));
    assertFalse(whole.substring(0, whole.indexOf("<style>")).contains("unsafe"));
    Matcher reference = Pattern.compile("(?:src|href)=\"([^\"]*)\"").matcher(markup(whole));
    while (reference.find()) {
      assertTrue(reference.group(1).startsWith("data:image/jpeg;base64,"), reference.group(1));
    }
  }

  @Test
  void page_saysTheResultInWords() {
    String page = markup(page(SmallComparison.of("a.png", "b.png")));
    assertTrue(
        page.contains(
            "From the earlier die to the later one: 6 changes: 1 moved, 1 resized, 1 other class,"
                + " 1 other content, 1 new, 1 gone."));
    assertTrue(page.contains("60.00 \u00b1 0.40 \u00b5m"), "the move");
    assertTrue(page.contains("+0.00500 \u00b1 0.00021 mm\u00b2"), "the growth has a sign");
    assertTrue(page.contains("turned by 90\u00b0 anticlockwise"));
    assertTrue(page.contains("the stated scales contradict each other"));
    assertTrue(page.contains("about 20,500 (10,000 to 41,000)"));
    assertTrue(page.contains("judged differently"));
    assertTrue(page.contains("1 of 2 matches are unchanged"));
    assertTrue(page.contains("ydrofluoric acid"));
    String none = markup(page(SmallComparison.unchanged("a.png", "b.png")));
    assertTrue(none.contains("no change that stands out from the uncertainty"));
    String unscaled = markup(page(SmallComparison.unscaled("a.png", "b.png")));
    assertTrue(unscaled.contains("60.00 \u00b1 0.40 px"));
    assertFalse(unscaled.contains("60.00 \u00b1 0.40 \u00b5m"));
  }

  @Test
  void dataOfThePage_liesInTheFrameOfThePictures() throws Exception {
    Comparison c = SmallComparison.of("a.png", "b.png");
    JsonNode data =
        new ObjectMapper()
            .readTree(ComparisonData.json(c, SmallComparison.map(), SmallPictures.of()));
    // C1 before: x 100 to 180, y 100 to 160 um; the picture begins at x -20 and y 620, 2 um a px.
    JsonNode ring = data.get("changes").get(0).get("before").get(0).get(0);
    assertEquals(60, ring.get(0).get(0).asDouble(), 1e-9);
    assertEquals(260, ring.get(0).get(1).asDouble(), 1e-9);
    assertEquals(100, ring.get(2).get(0).asDouble(), 1e-9);
    assertEquals(230, ring.get(2).get(1).asDouble(), 1e-9);
    assertEquals(0, data.get("changes").get(4).get("before").size());
    // Two neighbouring tiles of the uppermost row make one strip: x 100 to 140, y 600 to 580.
    assertEquals(1, data.get("different").size());
    double[] strip = {60, 10, 80, 20};
    for (int i = 0; i < 4; i++) {
      assertEquals(strip[i], data.get("different").get(0).get(i).asDouble(), 1e-9);
    }
  }

  /** RFC 4180: as many fields in each line as in the first. */
  @Test
  void table_hasOneLineForEachChange() {
    String csv = ChangeFiles.csv(SmallComparison.of("a.png", "b.png"));
    String[] lines = csv.split("\r\n");
    assertEquals(7, lines.length);
    assertTrue(lines[0].startsWith("id,kind,class_earlier,class_later"));
    assertTrue(lines[1].startsWith("C1,moved,hard macro,memory array,MAC1,MEM1,60.0000,0.400,,,,"));
    int fields = lines[0].split(",", -1).length;
    for (String line : lines) {
      String unquoted = line.replaceAll("\"(?:[^\"]|\"\")*\"", "x");
      assertEquals(fields, unquoted.split(",", -1).length, line);
    }
  }

  /** The reader of GeoJSON of the JTS project. */
  @Test
  void outlines_areReadByAnotherLibrary() throws Exception {
    String text = ChangeFiles.geoJson(SmallComparison.of("a.png", "b.png"));
    Geometry all = new GeoJsonReader().read(text);
    assertEquals(10, all.getNumGeometries(), "five before, five after");
    for (int i = 0; i < all.getNumGeometries(); i++) {
      assertTrue(all.getGeometryN(i).isValid(), "outline " + i);
    }
    assertEquals(80 * 60, all.getGeometryN(0).getArea(), 0.01);
    JsonNode root = new ObjectMapper().readTree(text);
    assertEquals("um", root.get("coordinate_frame").get("unit").asText());
    assertEquals("moved", root.get("features").get(0).get("properties").get("kind").asText());
  }

  /** Checked by Apache PDFBox Preflight for PDF/A-1b. */
  @Test
  void pdf_isAnArchiveDocument_andHoldsTheChanges() throws Exception {
    Comparison c = SmallComparison.of("a.png", "b.png");
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    ComparisonPdf.write(c, ComparisonStill.of(c, SmallPictures.of()), CREATED, bytes);
    Path file = Files.write(folder.resolve("c.pdf"), bytes.toByteArray());
    var result = PreflightParser.validate(file.toFile());
    assertTrue(
        result.isValid(),
        () -> result.getErrorsList().stream().map(e -> e.getDetails()).toList().toString());
    try (var document = Loader.loadPDF(bytes.toByteArray())) {
      String text = new PDFTextStripper().getText(document);
      for (String id : List.of("C1", "C2", "C3", "C4", "C5", "C6")) {
        assertTrue(text.contains(id), id);
      }
      assertTrue(text.contains("In figures"));
      assertTrue(text.contains("Memory bits") && text.contains("10,000 to 41,000"), text);
    }
  }

  @Test
  void overviewOfSeveralRevisions_linksEachStep_andSaysWhatIsMissing() {
    RevisionOverview overview =
        new RevisionOverview(
            List.of(HOSTILE, "b.png", "c.png"),
            List.of(Optional.of(SmallComparison.of(HOSTILE, "b.png")), Optional.empty()));
    String html = overview.html(CREATED);
    assertTrue(html.contains("<a href=\"1-2/comparison.html\">1-2</a>"));
    assertFalse(html.contains("href=\"2-3"), "what was not compared has no link");
    assertTrue(html.contains("not compared"));
    assertFalse(html.contains("<script"), html);
    assertEquals(7, overview.csv().split("\r\n").length);
  }
}
