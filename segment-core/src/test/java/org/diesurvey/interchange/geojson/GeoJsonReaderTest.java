package org.diesurvey.interchange.geojson;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.diesurvey.DieInputException;
import org.diesurvey.estimates.MemoryKind;
import org.diesurvey.interchange.ClassedOutline;
import org.diesurvey.interchange.Extent;
import org.diesurvey.interchange.MemoryFacts;
import org.diesurvey.interchange.OutlineSet;
import org.diesurvey.interchange.OutlineShapes;
import org.diesurvey.interchange.reading.OutlineFiles;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class GeoJsonReaderTest {
  private static final String RING = "[[0,0],[10,0],[10,10],[0,10],[0,0]]";

  private static OutlineSet parse(String json) {
    byte[] b = json.replace('\'', '"').getBytes(StandardCharsets.UTF_8);
    return OutlineFiles.parse(b, "o.geojson");
  }

  private static String refusal(String json) {
    return assertThrows(DieInputException.class, () -> parse(json)).getMessage();
  }

  private static String file(String frame, String photo, String feature) {
    return "{'type': 'FeatureCollection', 'coordinate_frame': {'unit': 'um', 'y_axis': 'up'"
        + frame
        + "}, 'photo': {"
        + photo
        + "}, 'features': ["
        + feature
        + "]}";
  }

  /** A file of one region of logic; "@" stands for the ring of 10 by 10 um. */
  private static String withGeometry(String geometry) {
    return file(
        "",
        "",
        "{'type': 'Feature', 'properties': {'class': 'logic'}, 'geometry': "
            + geometry.replace("@", RING)
            + "}");
  }

  private static String feature(String members, String properties) {
    return "{'type': 'Feature', "
        + members
        + "'properties': {"
        + properties
        + "}, 'geometry': {'type': 'Polygon', 'coordinates': ["
        + RING
        + "]}}";
  }

  private static ClassedOutline one(String members, String properties) {
    return parse(file("", "", feature(members, properties))).outlines().get(0);
  }

  @Test
  void factsAboutAMemory_areRead() {
    String memory = "'class': 'memory array'";
    assertEquals(
        Optional.of(new MemoryFacts(MemoryKind.STATIC, OptionalInt.of(2))),
        one("", memory + ", 'ports': 2").memory());
    assertEquals(
        Optional.of(new MemoryFacts(MemoryKind.STATIC, OptionalInt.of(1))),
        one("", memory + ", 'ports': 1").memory());
    assertEquals(
        Optional.of(new MemoryFacts(MemoryKind.FLASH, OptionalInt.empty())),
        one("", memory + ", 'memory_kind': 'flash'").memory());
    assertEquals(Optional.empty(), one("", memory).memory());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      value = {
        "'class': 'memory array', 'ports': 3 | has ports 3",
        "'class': 'memory array', 'ports': 0 | has ports 0",
        "'class': 'memory array', 'ports': 1.5 | has ports 1.5",
        "'class': 'memory array', 'memory_kind': 'drum' | unknown memory_kind 'drum'",
        "'class': 'logic', 'ports': 1 | is no memory array",
        "'class': 'logic', 'memory_kind': 'rom' | is no memory array",
        "'class': 'logic', 'kind': 'blob' | unknown kind 'blob'"
      })
  void factsThatCannotBe_areRefused(String properties, String words) {
    String said = refusal(file("", "", feature("'id': 'X', ", properties)));
    assertTrue(said.contains("'X'") && said.contains(words), said);
  }

  /** RFC 7946, 3.2: the identifier of a feature is text or a number. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      value = {
        "'id': ' A ', || A",
        "'id': 7, || 7",
        "'id': 'A', | 'id': 'B', | A",
        "~~ | 'id': 'B', | B",
        "~~ | ~~ | outline-1",
        "'id': '', | ~~ | outline-1",
        "'id': {}, | ~~ | outline-1"
      })
  void id_isThatOfTheFeature_thenOfItsProperties(String members, String properties, String id) {
    assertEquals(
        id,
        one(
                members == null ? "" : members,
                (properties == null ? "" : properties) + "'class': 'logic'")
            .id());
  }

  @ParameterizedTest
  @CsvSource({
    "1e6, 5, true",
    "1000001, 5, false",
    "5, 1e6, true",
    "5, 1000001, false",
    "0, 5, false",
    "5, 0, false",
    "20, 10, true"
  })
  void extent_isAboveZeroAndUpToAMillion(String width, String height, boolean accepted) {
    String json = file(", 'width': " + width + ", 'height': " + height, "", "");
    if (accepted) {
      assertEquals(
          Optional.of(new Extent(Double.parseDouble(width), Double.parseDouble(height))),
          parse(json).extent());
    } else {
      assertTrue(refusal(json).contains("must be numbers above 0 and up to 1e6"));
    }
  }

  @Test
  void extent_needsBothSides() {
    assertTrue(refusal(file(", 'width': 5", "", "")).contains("must be numbers above 0"));
    assertTrue(refusal(file(", 'height': 5", "", "")).contains("must be numbers above 0"));
  }

  @ParameterizedTest
  @CsvSource({"1000, true", "0.001, true", "1000.1, false", "0, false", "-1, false"})
  void pixelPitch_isAboveZeroAndUpToAMillimetre(double pitch, boolean accepted) {
    String json = file("", "'um_per_px': " + pitch, "");
    if (accepted) {
      assertEquals(OptionalDouble.of(pitch), parse(json).photo().umPerPx());
    } else {
      assertTrue(refusal(json).contains("um_per_px must be a number above 0"));
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "{'type': 'MultiPolygon', 'coordinates': [[@]]}",
        "{'type': 'Polygon', 'coordinates': [@]}"
      })
  void onePolygonAlone_isReadHoweverItIsWritten(String geometry) {
    String json = withGeometry(geometry);
    assertEquals(100, OutlineShapes.polygon(parse(json).outlines().get(0).shape()).getArea(), 1e-9);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      value = {
        "{'type': 'MultiPolygon', 'coordinates': [[@], [@]]} | has several parts",
        "{'type': 'Point', 'coordinates': [1, 2]} | has the geometry 'Point'",
        "{'type': 'Polygon', 'coordinates': {}} | has no rings",
        "{'type': 'Polygon', 'coordinates': [[[0,0],[1,0],[0,0]]]} | not closed"
      })
  void otherGeometries_areRefused(String geometry, String words) {
    String json = withGeometry(geometry);
    assertTrue(refusal(json).contains(words), refusal(json));
  }

  @Test
  void memberThatIsNoFeature_isRefused() {
    String json = file("", "", feature("", "'class': 'logic'").replace("'Feature'", "'Thing'"));
    assertTrue(refusal(json).contains("is no GeoJSON Feature"), refusal(json));
  }
}
