package org.diesurvey.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.ArrayList;
import java.util.List;
import org.diesurvey.survey.Point;
import org.diesurvey.survey.SmallSurvey;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class TablesTest {

  @Test
  void fieldsOfTheStandard_areQuotedAsItsExamplesAre() {
    // RFC 4180, 2, rules 6 and 7: "aaa","b CRLF bb","ccc" and "aaa","b""bb","ccc".
    CsvTable table = new CsvTable();
    table.text("aaa").text("b\r\nbb").text("ccc").end();
    table.text("aaa").text("b\"bb").text("c,cc").end();
    assertEquals("aaa,\"b\r\nbb\",ccc\r\naaa,\"b\"\"bb\",\"c,cc\"\r\n", table.toString());
  }

  @Test
  void formulas_areMadeText_butNumbersStay() {
    // OWASP, "CSV Injection": cells that begin with = + - @ tab or carriage return.
    CsvTable table = new CsvTable();
    table.text("=1+1").text("@x").text("-2").text("\tx").number("-2").end();
    assertEquals("'=1+1,'@x,'-2,'\tx,-2\r\n", table.toString());
  }

  @Test
  void regionTable_ofTheSmallSurvey() {
    String[] lines = RegionCsv.text(SmallSurvey.of(true, "=a,b.png")).split("\r\n");
    assertEquals(5, lines.length);
    int columns = lines[0].split(",", -1).length;
    assertEquals(
        "\"'=a,b.png\",M1,memory array,,0.000320000,0.00000320,80.00,0.104167,0.8000,"
            + "0.9000,0.0500,0.0300,0.0200,8.00,24.00,28.00,40.00,2.40000,0.0120,,90.00,,,,,1,,"
            + "L1 P1,,,,,,,",
        lines[1]);
    assertEquals(columns + 1, lines[1].split(",", -1).length, "the quoted comma makes one more");
    assertTrue(lines[4].contains(",unclear,empty,"));
  }

  @Test
  void regionTable_withoutScale_hasPixelsOnly() {
    String[] lines = RegionCsv.text(SmallSurvey.of(false)).split("\r\n");
    assertEquals(
        "small.png,M1,memory array,,,,80.00,0.104167,0.8000,0.9000,0.0500,0.0300,0.0200,,,,,"
            + ",,2.40000,90.00,,,,,1,,L1 P1,,,,,,,",
        lines[1]);
    assertEquals(lines[0].split(",", -1).length, lines[1].split(",", -1).length);
  }

  @ParameterizedTest(name = "scaled {0}")
  @ValueSource(booleans = {true, false})
  void geoJson_hasClosedRingsInTheSenseOfTheStandard(boolean scaled) throws Exception {
    JsonNode root = new ObjectMapper().readTree(RegionGeoJson.text(SmallSurvey.of(scaled)));
    assertEquals("FeatureCollection", root.get("type").asText());
    assertEquals(scaled ? "um" : "px", root.at("/coordinate_frame/unit").asText());
    assertTrue(root.at("/coordinate_frame/description").asText().contains("RFC 7946"));
    assertFalse(root.has("crs"), "RFC 7946, 4: the member crs was removed");
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
        assertEquals(outer, Rings.signedArea(corners.subList(0, corners.size() - 1)) > 0);
        outer = false;
      }
    }
  }

  @Test
  void geoJson_ofTheMemory_inUm() throws Exception {
    JsonNode m1 =
        new ObjectMapper().readTree(RegionGeoJson.text(SmallSurvey.of(true))).at("/features/0");
    assertEquals("M1", m1.get("id").asText());
    assertEquals("memory array", m1.at("/properties/class").asText());
    assertEquals(0.00032, m1.at("/properties/area_mm2").asDouble(), 1e-12);
    // 10 x 8 px from (8, 7); die corner lower left at (4, 27); 2 um/px.
    assertEquals(
        "[[[8.00,24.00],[28.00,24.00],[28.00,40.00],[8.00,40.00],[8.00,24.00]]]",
        rotatedToLowest(m1.at("/geometry/coordinates")));
    JsonNode array =
        new ObjectMapper().readTree(RegionGeoJson.text(SmallSurvey.of(true))).at("/features/1");
    assertEquals("M1", array.at("/properties/part_of").asText());
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
      s.append('[').append(Quantities.fixed(p[0], 2)).append(',');
      s.append(Quantities.fixed(p[1], 2)).append(']');
    }
    return s + "]]";
  }
}
