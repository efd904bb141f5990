package org.diesurvey.interchange.annotation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.diesurvey.DieInputException;
import org.diesurvey.classification.DieClass;
import org.diesurvey.interchange.ClassedOutline;
import org.diesurvey.interchange.OutlineSet;
import org.diesurvey.interchange.OutlineShapes;
import org.diesurvey.interchange.reading.OutlineFiles;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Documents that other programs may write: W3C "Web Annotation Data Model" (2017). */
class AnnotationReaderTest {
  private static final String CONTEXT = "'@context': 'http://www.w3.org/ns/anno.jsonld', ";
  private static final String TARGET =
      "'target': {'source': 'http://example.org/die.png', 'selector': {'type': 'FragmentSelector',"
          + " 'value': 'xywh=pixel:10,20,30,40'}}";

  private static OutlineSet parse(String json) {
    byte[] b = json.replace('\'', '"').getBytes(StandardCharsets.UTF_8);
    return OutlineFiles.parse(b, "o.jsonld");
  }

  private static String refusal(String json) {
    return assertThrows(DieInputException.class, () -> parse(json)).getMessage();
  }

  private static String body(String purpose, String value) {
    return "{'type': 'TextualBody', 'purpose': '" + purpose + "', 'value': '" + value + "'}";
  }

  private static String annotation(String context, String members) {
    return "{"
        + context
        + "'id': 'urn:x:1', 'type': 'Annotation', "
        + members
        + ", "
        + TARGET
        + "}";
  }

  private static final String LOGIC = "'body': " + body("tagging", "logic");

  /** One annotation, a list, a page, a collection; JSON-LD lets the context be a list. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "%s",
        "[%s]",
        "{@'type': 'AnnotationPage', 'items': [%s]}",
        "{@'type': ['AnnotationCollection'], 'first': {'items': [%s]}}"
      })
  void wrappings_areAllRead(String wrapping) {
    for (String context :
        List.of(
            CONTEXT,
            "'@context': ['http://example.org/own', 'http://www.w3.org/ns/anno.jsonld'], ")) {
      String json = wrapping.replace("@", context).formatted(annotation(context, LOGIC));
      List<ClassedOutline> all = parse(json).outlines();
      assertEquals(1, all.size(), json);
      assertEquals(DieClass.LOGIC, all.get(0).dieClass());
      var box = OutlineShapes.polygon(all.get(0).shape()).getEnvelopeInternal();
      assertEquals(new org.locationtech.jts.geom.Envelope(10, 40, 20, 60), box);
    }
  }

  @Test
  void documentOfAnotherContext_isNotTaken() {
    String other = "'@context': ['http://example.org/own'], ";
    assertTrue(refusal(annotation(other, LOGIC)).startsWith("o.jsonld: "));
    String bare = "{" + CONTEXT + "'type': 'AnnotationPage'}";
    assertTrue(refusal(bare).contains("the annotations are not in the file"), refusal(bare));
  }

  @Test
  void bodies_giveNameClassReasonAndNote() {
    String bodies =
        "'body': ["
            + body("tagging", "odd tag")
            + ", "
            + body("tagging", "unclear")
            + ", "
            + body("identifying", "UNC7")
            + ", "
            + body("commenting", " ")
            + ", "
            + body("commenting", "look here")
            + "]";
    String who = ", 'creator': [{'name': ''}, {'name': 'A. Nobody'}], ";
    String when = "'created': '2026-01-30T12:00:00+02:00', 'modified': '2026-01-31T12:00:00Z'";
    ClassedOutline o = parse(annotation(CONTEXT, bodies + who + when)).outlines().get(0);
    assertEquals("UNC7", o.id());
    assertEquals(DieClass.UNCLEAR, o.dieClass());
    assertEquals(Optional.of("odd tag"), o.reason());
    assertEquals(Optional.of("look here"), o.note());
    assertEquals(Optional.of("A. Nobody"), o.author());
    assertEquals(Optional.of(Instant.parse("2026-01-31T12:00:00Z")), o.time());
    assertEquals(Optional.empty(), o.partOf());
  }

  @Test
  void whatIsNotSaid_isEmpty() {
    ClassedOutline o = parse(annotation(CONTEXT, LOGIC)).outlines().get(0);
    assertEquals(Optional.empty(), o.author());
    assertEquals(Optional.empty(), o.time());
    assertEquals(Optional.empty(), o.note());
    assertEquals(Optional.empty(), o.reason());
    assertEquals(Optional.empty(), parse(annotation(CONTEXT, LOGIC)).photo().sha256());
  }

  /** The array says which memory is its own, or lies in one. */
  @Test
  void bitCells_belongToTheMemoryTheyAreLinkedTo_orLieIn() {
    String memory =
        "{'id': 'urn:m', 'type': 'Annotation', 'body': ["
            + body("tagging", "memory array")
            + ", "
            + body("identifying", "MEM9")
            + "], "
            + TARGET
            + "}";
    String array =
        "{'id': 'urn:a', 'type': 'Annotation', 'body': ["
            + body("tagging", "bit-cell array")
            + "%s], "
            + TARGET
            + "}";
    String link = ", {'type': 'SpecificResource', 'purpose': 'linking', 'source': '%s'}";
    String page = "{" + CONTEXT + "'type': 'AnnotationPage', 'items': [%s, %s]}";
    for (String l : List.of("", link.formatted("urn:m"))) {
      OutlineSet set = parse(page.formatted(memory, array.formatted(l)));
      assertEquals(1, set.bitCellsOf("MEM9").size(), l);
      assertEquals(1, set.regions().size());
    }
    // Linked to a memory that it does not lie in.
    String other = memory.replace("MEM9", "MEM8").replace("urn:m", "urn:n").replace(":10,", ":90,");
    String three = page.formatted(memory + ", " + other, array.formatted(link.formatted("urn:n")));
    assertTrue(refusal(three).contains("outside its memory 'MEM8'"), refusal(three));
    String seen = three.replace("'linking'", "'seeing'");
    assertEquals(1, parse(seen).bitCellsOf("MEM9").size());
  }

  @Test
  void faults_areToldWithTheAnnotation() {
    assertTrue(
        refusal(annotation(CONTEXT, LOGIC + ", 'created': 'today'"))
            .contains("has the time 'today'"));
    String elsewhere = annotation("", LOGIC).replace("die.png", "other.png");
    String list = "{" + CONTEXT + "'type': 'AnnotationPage', 'items': [%s, %s]}";
    assertTrue(
        refusal(list.formatted(annotation("", LOGIC), elsewhere))
            .contains("another photograph than those before"));
    assertTrue(
        refusal(annotation(CONTEXT, LOGIC).replace("pixel", "percent"))
            .contains("has no SvgSelector and no pixel rectangle"));
    assertTrue(
        refusal("{" + CONTEXT + "'type': 'Annotation', " + LOGIC + "}")
            .contains("'annotation 1' must have one target"));
    String hash = annotation(CONTEXT, LOGIC).replace("http://example.org/die.png", "%s");
    assertTrue(refusal(hash.formatted("ni:///sha-256;AAAA")).contains("no valid ni URI"));
    assertTrue(refusal(hash.formatted("ni:///sha-256;???")).contains("no valid ni URI"));
  }
}
