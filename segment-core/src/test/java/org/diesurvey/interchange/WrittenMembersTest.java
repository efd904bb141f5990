package org.diesurvey.interchange;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.time.Instant;
import java.util.Base64;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import javax.xml.parsers.DocumentBuilderFactory;
import org.diesurvey.classification.DieClass;
import org.diesurvey.estimates.MemoryKind;
import org.diesurvey.interchange.annotation.AnnotationWriter;
import org.diesurvey.interchange.geojson.GeoJsonWriter;
import org.diesurvey.interchange.svg.SvgWriter;
import org.diesurvey.quantity.Measured;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;

/**
 * One outline of which everything is known, and one of which nothing is: every member that a format
 * promises is in the file, written out here by hand, and nothing stands for what is not known.
 */
class WrittenMembersTest {
  private static final ObjectMapper JSON = new ObjectMapper();

  private static ClassedOutline known() {
    return new ClassedOutline(
        "MEM 1",
        DieClass.MEMORY_ARRAY,
        Optional.of("odd"),
        TestOutlines.box(1, 2, 30, 40),
        Optional.empty(),
        Optional.of("a <note>"),
        Optional.of("A. Nobody"),
        Optional.of(Instant.parse("2026-01-31T12:00:00Z")),
        Optional.of(
            new StatedMeasures(
                Optional.of(new Measured(0.123456789, 0.00123456)),
                1200.125,
                0.12345678,
                0.87654321,
                OptionalInt.of(44))),
        Optional.of(new MemoryFacts(MemoryKind.STATIC, OptionalInt.of(2))));
  }

  private static OutlineSet set(OutlineFrame frame) throws Exception {
    byte[] hash = MessageDigest.getInstance("SHA-256").digest(new byte[0]);
    return new OutlineSet(
        frame,
        Optional.of(new Extent(100, 50.125)),
        new PhotoLink(
            Optional.of("die.png"),
            Optional.of(java.util.HexFormat.of().formatHex(hash)),
            OptionalDouble.of(0.123456789)),
        List.of(
            known(),
            ClassedOutline.region("LOG1", DieClass.LOGIC, TestOutlines.box(50, 2, 30, 40)),
            ClassedOutline.bitCells("MEM1.1", "MEM 1", TestOutlines.box(2, 3, 10, 20))));
  }

  private static OutlineSet bare(OutlineFrame frame) {
    return new OutlineSet(frame, Optional.empty(), PhotoLink.UNKNOWN, List.of());
  }

  @Test
  void geoJson_hasEveryMember() throws Exception {
    JsonNode root = JSON.readTree(GeoJsonWriter.text(set(OutlineFrame.DIE_UM)));
    ((com.fasterxml.jackson.databind.node.ObjectNode) root.get("coordinate_frame"))
        .remove("description");
    assertEquals(
        JSON.readTree(
            """
            {"unit": "um", "y_axis": "up", "width": 100, "height": 50.12}
            """),
        root.get("coordinate_frame"));
    assertEquals(
        JSON.readTree(
            """
            {"file_name": "die.png", "um_per_px": 0.12345679,
             "sha256": "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"}
            """),
        root.get("photo"));
    assertEquals(
        JSON.readTree(
            """
            {"id": "MEM 1", "kind": "region", "class": "memory array", "reason": "odd",
             "memory_kind": "static", "ports": 2, "area_mm2": 0.123457,
             "standard_uncertainty_area_mm2": 0.00123, "area_px": 1200.12,
             "share_of_die": 0.123457, "confidence": 0.8765, "bond_pads": 44, "note": "a <note>",
             "author": "A. Nobody", "time": "2026-01-31T12:00:00Z"}
            """),
        root.at("/features/0/properties"));
    assertEquals(
        JSON.readTree("{\"id\": \"LOG1\", \"kind\": \"region\", \"class\": \"logic\"}"),
        root.at("/features/1/properties"));
    assertEquals(
        JSON.readTree("{\"id\": \"MEM1.1\", \"kind\": \"bit-cell array\", \"part_of\": \"MEM 1\"}"),
        root.at("/features/2/properties"));
    assertEquals("MEM 1", root.at("/features/0/id").asText());
  }

  @Test
  void geoJson_inPixels_saysSo_andInventsNothing() throws Exception {
    JsonNode root = JSON.readTree(GeoJsonWriter.text(bare(OutlineFrame.PHOTO_PX)));
    assertEquals("px", root.at("/coordinate_frame/unit").asText());
    assertEquals("down", root.at("/coordinate_frame/y_axis").asText());
    assertTrue(root.at("/coordinate_frame/description").asText().startsWith("Planar pixels"));
    assertFalse(root.get("coordinate_frame").has("width"));
    assertEquals(JSON.createObjectNode(), root.get("photo"));
    assertEquals(0, root.get("features").size());
  }

  /** Read by the parser of the JDK. */
  @Test
  void svg_hasEveryAttribute() throws Exception {
    String text =
        SvgWriter.text(set(OutlineFrame.PHOTO_PX), Optional.of("a b.png"), c -> "#112233");
    DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
    factory.setNamespaceAware(true);
    Element root =
        factory
            .newDocumentBuilder()
            .parse(new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8)))
            .getDocumentElement();
    assertAttributes(
        root,
        "width=100 height=50.125 viewBox=0_0_100_50.125 data-photo-width=100"
            + " data-photo-height=50.125 data-photo-name=die.png data-um-per-px=0.123456789");
    assertTrue(root.getAttribute("data-photo-sha256").startsWith("e3b0c442"));
    assertEquals("Die outlines: die.png", child(root, "title"));
    Element image = (Element) root.getElementsByTagName("image").item(0);
    assertAttributes(
        image, "x=0 y=0 width=100 height=50.125 preserveAspectRatio=none href=a_b.png");
    assertEquals("a b.png", image.getAttributeNS("http://www.w3.org/1999/xlink", "href"));
    NodeList groups = root.getElementsByTagName("g");
    assertEquals(6, groups.getLength());
    Element memory = (Element) groups.item(4);
    assertAttributes(
        memory,
        "id=class-memory-array data-class=memory_array fill=#112233 fill-opacity=0.25"
            + " fill-rule=evenodd stroke=#112233 stroke-width=0.1 stroke-linejoin=miter");
    assertEquals("memory array", child(memory, "title"));
    assertEquals("Outlines of the class memory array: 1", child(memory, "desc"));
    Element path = (Element) memory.getElementsByTagName("path").item(0);
    assertFalse(path.hasAttribute("id"), "a name with a blank is no id in XML");
    assertAttributes(
        path,
        "data-id=MEM_1 data-reason=odd data-note=a_<note> data-author=A._Nobody"
            + " data-time=2026-01-31T12:00:00Z d=M1,2_L31,2_L31,42_L1,42_Z");
    assertEquals("MEM 1", child(path, "title"));
    assertEquals(
        "0.123457 mm2, standard uncertainty 0.0012 mm2; share 12.35 %; confidence 88 %; about 44"
            + " bond pads; a <note>",
        child(path, "desc"));
    Element cells = (Element) groups.item(5);
    assertAttributes(cells, "id=class-bit-cell-array fill=none stroke-width=0.05");
    Element array = (Element) cells.getElementsByTagName("path").item(0);
    assertAttributes(array, "id=MEM1.1 data-id=MEM1.1 data-part-of=MEM_1");
  }

  private static void assertAttributes(Element e, String all) {
    for (String one : all.split(" ")) {
      String name = one.substring(0, one.indexOf('='));
      String value = one.substring(one.indexOf('=') + 1).replace('_', ' ');
      assertEquals(value, e.getAttribute(name), name);
    }
  }

  private static String child(Element parent, String name) {
    return parent.getElementsByTagName(name).item(0).getTextContent();
  }

  @Test
  void svg_needsPixelsAndTheSizeOfThePhotograph() {
    for (OutlineSet s : List.of(bare(OutlineFrame.PHOTO_PX), bare(OutlineFrame.DIE_UM))) {
      assertThrows(
          IllegalArgumentException.class, () -> SvgWriter.text(s, Optional.empty(), c -> ""));
    }
    assertThrows(
        IllegalArgumentException.class, () -> AnnotationWriter.text(bare(OutlineFrame.DIE_UM)));
  }

  /** W3C Web Annotation Data Model (2017); the photograph by RFC 6920, that is base64url of it. */
  @Test
  void annotation_hasEveryMember() throws Exception {
    JsonNode root = JSON.readTree(AnnotationWriter.text(set(OutlineFrame.PHOTO_PX)));
    assertEquals("http://www.w3.org/ns/anno.jsonld", root.get("@context").asText());
    assertEquals("AnnotationCollection", root.get("type").asText());
    assertEquals("Die outlines: die.png", root.get("label").asText());
    assertEquals(3, root.get("total").asInt());
    assertEquals("AnnotationPage", root.at("/first/type").asText());
    assertEquals(0, root.at("/first/startIndex").asInt(-1));
    JsonNode a = root.at("/first/items/0");
    assertEquals("Annotation", a.get("type").asText());
    assertEquals("classifying", a.get("motivation").asText());
    assertEquals("A. Nobody", a.at("/creator/name").asText());
    assertEquals("2026-01-31T12:00:00Z", a.get("created").asText());
    StringBuilder bodies = new StringBuilder();
    for (JsonNode b : a.get("body")) {
      assertEquals("TextualBody", b.get("type").asText());
      assertEquals("text/plain", b.get("format").asText());
      bodies.append(b.get("purpose").asText()).append(' ').append(b.get("value").asText());
      bodies.append('|');
    }
    assertTrue(
        bodies
            .toString()
            .startsWith("tagging memory array|tagging odd|identifying MEM 1|describing "),
        bodies.toString());
    assertTrue(bodies.toString().endsWith("|commenting a <note>|"), bodies.toString());
    byte[] hash = MessageDigest.getInstance("SHA-256").digest(new byte[0]);
    assertEquals(
        "ni:///sha-256;" + Base64.getUrlEncoder().withoutPadding().encodeToString(hash),
        a.at("/target/source/id").asText());
    assertEquals("Image", a.at("/target/source/type").asText());
    assertEquals("SpecificResource", a.at("/target/type").asText());
    assertEquals("SvgSelector", a.at("/target/selector/type").asText());
    assertEquals(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"100\" height=\"50.125\">"
            + "<path fill-rule=\"evenodd\" d=\"M1,2 L31,2 L31,42 L1,42 Z\"/></svg>",
        a.at("/target/selector/value").asText());
    JsonNode link = root.at("/first/items/2/body/2");
    assertEquals("bit-cell array", root.at("/first/items/2/body/0/value").asText());
    assertEquals("linking", link.get("purpose").asText());
    assertEquals("SpecificResource", link.get("type").asText());
    assertEquals(a.get("id").asText(), link.get("source").asText());
  }

  @Test
  void annotationsOfAnUnknownPhotograph_haveNamesToo() throws Exception {
    JsonNode root = JSON.readTree(AnnotationWriter.text(bare(OutlineFrame.PHOTO_PX)));
    assertEquals("Die outlines", root.get("label").asText());
    assertTrue(root.get("id").asText().startsWith("urn:uuid:"));
    assertTrue(root.at("/first/id").asText().startsWith("urn:uuid:"));
    assertFalse(root.get("id").equals(root.at("/first/id")));
  }
}
