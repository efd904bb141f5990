package org.diesurvey.interchange.geojson;

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
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.diesurvey.DieInputException;
import org.diesurvey.classification.DieClass;
import org.diesurvey.interchange.ClassedOutline;
import org.diesurvey.interchange.OutlineFrame;
import org.diesurvey.interchange.OutlineSet;
import org.diesurvey.interchange.OutlineShapes;
import org.diesurvey.interchange.PhotoLink;
import org.diesurvey.interchange.SurveyOutlines;
import org.diesurvey.interchange.TestOutlines;
import org.diesurvey.interchange.reading.OutlineFiles;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;
import org.diesurvey.survey.SmallSurvey;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;

class GeoJsonTest {

  private static OutlineSet parse(String text) {
    return OutlineFiles.parse(text.getBytes(StandardCharsets.UTF_8), "o.geojson");
  }

  @ParameterizedTest(name = "scaled {0}")
  @ValueSource(booleans = {true, false})
  void whatIsWritten_isReadBack(boolean scaled) {
    OutlineSet set = SurveyOutlines.of(SmallSurvey.of(scaled));
    OutlineSet back = parse(GeoJsonWriter.text(set));
    assertEquals(set.frame(), back.frame());
    assertEquals(set.extent(), back.extent());
    assertEquals(set.photo(), back.photo());
    assertEquals(set.outlines().size(), back.outlines().size());
    for (int i = 0; i < set.outlines().size(); i++) {
      ClassedOutline a = set.outlines().get(i);
      ClassedOutline b = back.outlines().get(i);
      assertEquals(a.id(), b.id());
      assertEquals(a.dieClass(), b.dieClass());
      assertEquals(a.reason(), b.reason());
      assertEquals(a.partOf(), b.partOf());
      assertEquals(
          area(a.shape()), area(b.shape()), 1e-9, "a hole along an edge is cut out of the outline");
    }
  }

  /** The independent reader is that of the JTS project. */
  @Test
  void areasOfOurFile_byTheIndependentReader() throws Exception {
    OutlineSet set = TestOutlines.rich(OutlineFrame.DIE_UM);
    JsonNode root = new ObjectMapper().readTree(GeoJsonWriter.text(set));
    var reader = new org.locationtech.jts.io.geojson.GeoJsonReader(new GeometryFactory());
    for (JsonNode feature : root.get("features")) {
      Geometry g = reader.read(feature.get("geometry").toString());
      assertTrue(g.isValid());
      assertEquals(
          TestOutlines.area(set, feature.get("id").asText()), g.getArea(), 0.01 * g.getLength());
    }
    Geometry all = reader.read(root.toString());
    assertEquals(set.outlines().size(), all.getNumGeometries());
  }

  /**
   * The independent reader is GDAL 3 (Debian package gdal-bin): it must not take micrometres for
   * degrees. Where it is absent this is skipped and says so.
   */
  @ParameterizedTest(name = "{0}")
  @CsvSource({"DIE_UM, micrometre", "PHOTO_PX, pixel"})
  @Tag("slow")
  void gdalReadsThePlane(OutlineFrame frame, String unit, @TempDir Path folder) throws Exception {
    OutlineSet set = TestOutlines.rich(frame);
    Path file = Files.writeString(folder.resolve("o.geojson"), GeoJsonWriter.text(set));
    Process ogr;
    try {
      ogr =
          new ProcessBuilder("ogrinfo", "-ro", "-so", "-al", file.toString())
              .redirectErrorStream(true)
              .start();
    } catch (IOException e) {
      Assumptions.abort(
          "skipped: no ogrinfo (Debian: apt-get install gdal-bin), so the GeoJSON was not read by"
              + " GDAL");
      return;
    }
    String said = new String(ogr.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertEquals(0, ogr.waitFor(), said);
    assertTrue(said.contains(unit), said);
    assertFalse(said.contains("WGS 84"), said);
    assertTrue(said.contains("Feature Count: " + set.outlines().size()), said);
  }

  private static double area(Outline o) {
    return Math.abs(OutlineShapes.signedArea(o.shell()))
        - o.holes().stream().mapToDouble(h -> Math.abs(OutlineShapes.signedArea(h))).sum();
  }

  @Test
  void notesOfPeople_stayText() {
    String note = "<script>alert(1)</script> \"quoted\" \u202Ereversed";
    ClassedOutline noted =
        new ClassedOutline(
            "MEM1",
            DieClass.MEMORY_ARRAY,
            Optional.empty(),
            new Outline(List.of(new Point(0, 0), new Point(9, 0), new Point(9, 9)), List.of()),
            Optional.empty(),
            Optional.of(note),
            Optional.of("A. Nobody"),
            Optional.of(Instant.parse("2026-01-31T12:00:00Z")),
            Optional.empty());
    OutlineSet set =
        new OutlineSet(OutlineFrame.DIE_UM, Optional.empty(), PhotoLink.UNKNOWN, List.of(noted));
    ClassedOutline back = parse(GeoJsonWriter.text(set)).outlines().get(0);
    assertEquals(noted.note(), back.note());
    assertEquals(noted.author(), back.author());
    assertEquals(noted.time(), back.time());
  }

  /** One outline of class "logic", or whatever the parameters say. */
  private static String document(String frame, String properties, String coordinates) {
    return "{\"type\":\"FeatureCollection\",\"coordinate_frame\":{"
        + frame
        + "},\"features\":[{\"type\":\"Feature\",\"id\":\"x\",\"properties\":{"
        + properties
        + "},\"geometry\":{\"type\":\"Polygon\",\"coordinates\":"
        + coordinates
        + "}}]}";
  }

  private static final String UM = "\"unit\":\"um\",\"y_axis\":\"up\",\"width\":100,\"height\":50";
  private static final String BOX = "[[[0,0],[10,0],[10,10],[0,10],[0,0]]]";

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      value = {
        "crossing | [[[0,0],[10,10],[10,0],[0,10],[0,0]]] | crosses or touches itself near (5, 5)"
            + " um",
        "open ring | [[[0,0],[10,0],[10,10],[0,10]]] | not closed",
        "huge | [[[0,0],[1e300,0],[10,10],[0,10],[0,0]]] | which is on no die",
        "too large a number | [[[0,0],[1e999,0],[10,10],[0,10],[0,0]]] | Infinity",
        "text for a number | [[[0,0],[~NaN~,0],[10,10],[0,10],[0,0]]] | no pair of numbers",
        "bare NaN | [[[0,0],[NaN,0],[10,10],[0,10],[0,0]]] | no valid JSON",
        "outside | [[[0,0],[120,0],[120,10],[0,10],[0,0]]] | outside the die of 100 x 50 um",
        "a line | [[[0,0],[10,0],[0,0],[0,0]]] | fewer than 3 different corners",
        "hole outside | [[[0,0],[9,0],[9,9],[0,0]],[[20,20],[22,20],[22,22],[20,20]]] | a hole"
            + " outside",
        "no rings | [] | no rings",
        "deep nesting | [[[[[[[[0]]]]]]]] | no pair of numbers"
      })
  void faultyCoordinates_areRefusedInASentence(String name, String coordinates, String words) {
    String json = document(UM, "\"class\":\"logic\"", coordinates.replace('~', '"'));
    DieInputException e = assertThrows(DieInputException.class, () -> parse(json));
    assertTrue(e.getMessage().contains(words), e.getMessage());
    assertTrue(e.getMessage().startsWith("o.geojson: "), e.getMessage());
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      value = {
        "unknown class | ^class^:^gpu^ | unknown class 'gpu': give it one of memory array, hard"
            + " macro",
        "no class | ^note^:^x^ | has no class",
        "off-die | ^class^:^off-die^ | unknown class",
        "array without memory | ^kind^:^bit-cell array^,^part_of^:^MEM7^ | no memory array of that"
            + " id",
        "array of nothing | ^kind^:^bit-cell array^ | without the member part_of",
        "odd time | ^class^:^logic^,^time^:^yesterday^ | write it as 2026",
        "note no text | ^class^:^logic^,^note^:{} | member note that is no text"
      })
  void faultyProperties_areRefusedInASentence(String name, String properties, String words) {
    String json = document(UM, properties.replace('^', '"'), BOX);
    DieInputException e = assertThrows(DieInputException.class, () -> parse(json));
    assertTrue(e.getMessage().contains(words), e.getMessage());
  }

  @Test
  void longitudeAndLatitude_areRefused() {
    String json = document("", "\"class\":\"logic\"", BOX);
    DieInputException e = assertThrows(DieInputException.class, () -> parse(json));
    assertTrue(e.getMessage().contains("longitude and latitude are not read"), e.getMessage());
  }

  @Test
  void overlappingRegions_areRefused_butNotOverUnclearArea() {
    String two =
        GeoJsonWriter.text(
            new OutlineSet(
                OutlineFrame.DIE_UM,
                Optional.empty(),
                PhotoLink.UNKNOWN,
                List.of(
                    ClassedOutline.region("A", DieClass.LOGIC, TestOutlines.box(0, 0, 10, 10)),
                    ClassedOutline.region(
                        "B", DieClass.HARD_MACRO, TestOutlines.box(5, 0, 10, 10)))));
    DieInputException e = assertThrows(DieInputException.class, () -> parse(two));
    assertTrue(
        e.getMessage().contains("'B' overlaps 'A' by 50 um2 (50 % of the smaller)"),
        e.getMessage());
    assertEquals(2, parse(two.replace("hard macro", "unclear")).outlines().size());
  }

  @Test
  void anotherPhotograph_isSaid() {
    OutlineSet set = SurveyOutlines.of(SmallSurvey.of(true));
    String other = GeoJsonWriter.text(set).replace("0123456789abcdef0", "f123456789abcdef0");
    DieInputException e =
        assertThrows(
            DieInputException.class,
            () -> SurveyOutlines.onDie(parse(other), SmallSurvey.of(true), "o.geojson"));
    assertTrue(
        e.getMessage().contains("belong to another photograph, 'small.png'"), e.getMessage());
  }

  @Test
  void pixelOutlines_moveToTheDie() {
    OutlineSet px = SurveyOutlines.of(SmallSurvey.of(true), OutlineFrame.PHOTO_PX);
    OutlineSet um =
        px.in(
            OutlineFrame.DIE_UM, SurveyOutlines.photoToDie(SmallSurvey.of(true)), Optional.empty());
    OutlineSet expected = SurveyOutlines.of(SmallSurvey.of(true));
    for (int i = 0; i < expected.outlines().size(); i++) {
      List<Point> a = expected.outlines().get(i).shape().shell();
      List<Point> b = um.outlines().get(i).shape().shell();
      for (int j = 0; j < a.size(); j++) {
        assertEquals(a.get(j).x(), b.get(j).x(), 1e-9);
        assertEquals(a.get(j).y(), b.get(j).y(), 1e-9);
      }
    }
  }

  @Test
  void dieOutlines_moveToThePhotograph() {
    OutlineSet um = SurveyOutlines.of(SmallSurvey.of(true));
    OutlineSet px = SurveyOutlines.onPhoto(um, SmallSurvey.of(true), "o");
    assertEquals(OutlineFrame.PHOTO_PX, px.frame());
    // The memory of the small survey: 10 x 8 px from (8, 7).
    var box = OutlineShapes.polygon(px.outlines().get(0).shape()).getEnvelopeInternal();
    assertEquals(8, box.getMinX(), 1e-9);
    assertEquals(7, box.getMinY(), 1e-9);
    assertEquals(15, box.getMaxY(), 1e-9);
    DieInputException e =
        assertThrows(
            DieInputException.class, () -> SurveyOutlines.onPhoto(um, SmallSurvey.of(false), "o"));
    assertTrue(e.getMessage().contains("has no scale"), e.getMessage());
  }

  @Test
  void aSurveyItself_isAFileWithOutlines() {
    byte[] json =
        org.diesurvey.survey.json.SurveyJson.write(SmallSurvey.of(true), Optional.empty());
    assertEquals(5, OutlineFiles.parse(json, "survey.json").outlines().size());
  }

  @ParameterizedTest(name = "scaled {0}")
  @ValueSource(booleans = {true, false})
  void geoJson_hasClosedRingsInTheSenseOfTheStandard(boolean scaled) throws Exception {
    JsonNode root =
        new ObjectMapper().readTree(GeoJsonWriter.text(SurveyOutlines.of(SmallSurvey.of(scaled))));
    assertEquals("FeatureCollection", root.get("type").asText());
    assertEquals(scaled ? "um" : "px", root.at("/coordinate_frame/unit").asText());
    assertTrue(root.at("/coordinate_frame/description").asText().contains("RFC 7946"));
    // RFC 7946, 4, removed the member, but readers of 2008 take numbers without it for degrees.
    assertEquals("name", root.at("/crs/type").asText());
    assertEquals(
        scaled ? GeoJsonWriter.PLANAR_UM : GeoJsonWriter.PLANAR_PX,
        root.at("/crs/properties/name").asText());
    assertEquals(5, root.get("features").size(), "4 regions and 1 bit-cell array");
    for (JsonNode feature : root.get("features")) {
      assertEquals("Feature", feature.get("type").asText());
      assertEquals("Polygon", feature.at("/geometry/type").asText());
      boolean outer = true;
      for (JsonNode ring : feature.at("/geometry/coordinates")) {
        // RFC 7946, 3.1.6: first and last position are equal; outer rings counter-clockwise.
        assertEquals(ring.get(0), ring.get(ring.size() - 1));
        List<Point> corners = new ArrayList<>();
        ring.forEach(p -> corners.add(new Point(p.get(0).asDouble(), p.get(1).asDouble())));
        assertEquals(outer, OutlineShapes.signedArea(corners.subList(0, corners.size() - 1)) > 0);
        outer = false;
      }
    }
  }

  @Test
  void geoJson_ofTheMemory_inUm() throws Exception {
    JsonNode m1 =
        new ObjectMapper()
            .readTree(GeoJsonWriter.text(SurveyOutlines.of(SmallSurvey.of(true))))
            .at("/features/0");
    assertEquals("MEM1", m1.get("id").asText());
    assertEquals("memory array", m1.at("/properties/class").asText());
    assertEquals(0.00032, m1.at("/properties/area_mm2").asDouble(), 1e-12);
    // 10 x 8 px from (8, 7); die corner lower left at (4, 27); 2 um/px.
    assertEquals(
        "[[[8.00,24.00],[28.00,24.00],[28.00,40.00],[8.00,40.00],[8.00,24.00]]]",
        rotatedToLowest(m1.at("/geometry/coordinates")));
    JsonNode array =
        new ObjectMapper()
            .readTree(GeoJsonWriter.text(SurveyOutlines.of(SmallSurvey.of(true))))
            .at("/features/1");
    assertEquals("MEM1", array.at("/properties/part_of").asText());
    assertEquals("bit-cell array", array.at("/properties/kind").asText());
  }

  /** The one ring as text, begun at its lower left corner. */
  private static String rotatedToLowest(JsonNode coordinates) {
    List<double[]> ring = new ArrayList<>();
    coordinates
        .get(0)
        .forEach(p -> ring.add(new double[] {p.get(0).asDouble(), p.get(1).asDouble()}));
    ring.remove(ring.size() - 1);
    int first = 0;
    for (int i = 1; i < ring.size(); i++) {
      if (ring.get(i)[0] + ring.get(i)[1] < ring.get(first)[0] + ring.get(first)[1]) {
        first = i;
      }
    }
    StringBuilder s = new StringBuilder("[[");
    for (int i = 0; i <= ring.size(); i++) {
      double[] p = ring.get((first + i) % ring.size());
      s.append(i == 0 ? "" : ",");
      s.append('[').append(String.format(Locale.ROOT, "%.2f", p[0])).append(',');
      s.append(String.format(Locale.ROOT, "%.2f", p[1])).append(']');
    }
    return s + "]]";
  }
}
