package org.diesurvey.interchange.annotation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.util.HashSet;
import java.util.Optional;
import java.util.Set;
import org.diesurvey.DieInputException;
import org.diesurvey.classification.DieClass;
import org.diesurvey.interchange.OutlineFrame;
import org.diesurvey.interchange.OutlineSet;
import org.diesurvey.interchange.PhotoLink;
import org.diesurvey.interchange.SurveyOutlines;
import org.diesurvey.interchange.TestOutlines;
import org.diesurvey.interchange.reading.OutlineFiles;
import org.diesurvey.survey.SmallSurvey;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class AnnotationTest {
  /**
   * Keys of the context of "Web Annotation Vocabulary" (W3C Recommendation, 23 February 2017,
   * appendix A, http://www.w3.org/ns/anno.jsonld) that we may use; anything else would lose its
   * meaning. From memory of the published context.
   */
  private static final Set<String> CONTEXT_KEYS =
      Set.of(
          "@context",
          "id",
          "type",
          "label",
          "total",
          "first",
          "startIndex",
          "items",
          "motivation",
          "creator",
          "name",
          "created",
          "body",
          "purpose",
          "format",
          "value",
          "source",
          "target",
          "selector");

  /** Types and motivations of the same context. */
  private static final Set<String> TYPES =
      Set.of(
          "AnnotationCollection",
          "AnnotationPage",
          "Annotation",
          "TextualBody",
          "SpecificResource",
          "Image",
          "SvgSelector");

  private static final Set<String> MOTIVATIONS =
      Set.of("tagging", "identifying", "describing", "commenting", "linking", "classifying");

  private static OutlineSet parse(String text) {
    return OutlineFiles.parse(text.getBytes(StandardCharsets.UTF_8), "o.jsonld");
  }

  @Test
  void whatIsWritten_isReadBack() {
    OutlineSet set = TestOutlines.rich(OutlineFrame.PHOTO_PX);
    OutlineSet back = parse(AnnotationWriter.text(set));
    TestOutlines.assertSame(set, back, 0.001);
    assertEquals(set.photo().sha256(), back.photo().sha256());
    assertEquals(set.extent(), back.extent());
    assertEquals(AnnotationWriter.text(set), AnnotationWriter.text(set));
  }

  @Test
  void everyMember_isOneOfTheStandardsContext() throws Exception {
    JsonNode root =
        new ObjectMapper()
            .readTree(
                AnnotationWriter.text(
                    SurveyOutlines.of(SmallSurvey.of(true), OutlineFrame.PHOTO_PX)));
    assertEquals("http://www.w3.org/ns/anno.jsonld", root.get("@context").asText());
    Set<String> keys = new HashSet<>();
    walk(root, keys);
    keys.removeAll(CONTEXT_KEYS);
    assertEquals(Set.of(), keys);
    // Data Model 5.1 and 5.2: total and startIndex are non-negative; first embeds the page.
    assertEquals(5, root.get("total").asInt());
    assertEquals(5, root.at("/first/items").size());
    for (JsonNode a : root.at("/first/items")) {
      // 3.1: an annotation has an IRI, a type, one or more targets. 3.2.4: textual bodies.
      assertTrue(URI.create(a.get("id").asText()).isAbsolute());
      assertTrue(URI.create(a.at("/target/source/id").asText()).isAbsolute());
      assertEquals("SvgSelector", a.at("/target/selector/type").asText());
      assertTrue(MOTIVATIONS.contains(a.get("motivation").asText()));
      for (JsonNode b : a.get("body")) {
        assertTrue(MOTIVATIONS.contains(b.get("purpose").asText()));
      }
    }
  }

  private static void walk(JsonNode node, Set<String> keys) {
    node.fieldNames().forEachRemaining(keys::add);
    if (node.has("type")) {
      assertTrue(TYPES.contains(node.get("type").asText()), node.get("type").asText());
    }
    node.forEach(n -> walk(n, keys));
  }

  /** RFC 6920, 3 and 8.2: the SHA-256 of "Hello World!" as an ni URI. */
  @Test
  void photographs_areNamedAsTheStandardDoes() throws Exception {
    OutlineSet rich = TestOutlines.rich(OutlineFrame.PHOTO_PX);
    OutlineSet set =
        new OutlineSet(
            rich.frame(),
            rich.extent(),
            new PhotoLink(
                Optional.empty(),
                Optional.of("7f83b1657ff1fc53b92dc18148a1d65dfc2d4b1fa3d677284addd200126d9069"),
                rich.photo().umPerPx()),
            rich.outlines());
    assertTrue(
        AnnotationWriter.text(set)
            .contains("\"ni:///sha-256;f4OxZX_x_FO5LcGBSKHWXfwtSx-j1ncoSt3SABJtkGk\""));
  }

  /**
   * Shape and members as in examples 4, 8 and 20 of the Data Model: one annotation, short forms.
   */
  @Test
  void shortFormsOfOthers_areRead() {
    OutlineSet set =
        parse(
            "{\"@context\": \"http://www.w3.org/ns/anno.jsonld\", \"id\": \"http://example.org/1\","
                + "\"type\": \"Annotation\", \"body\": {\"type\": \"TextualBody\", \"purpose\":"
                + " \"tagging\", \"value\": \"logic\"}, \"target\": {\"source\":"
                + " \"http://example.org/die.png\", \"selector\": {\"type\": \"FragmentSelector\","
                + "\"value\": \"xywh=pixel:10,20,30.5,40\"}}}");
    assertEquals(DieClass.LOGIC, TestOutlines.get(set, "LOG1").dieClass());
    assertEquals(1220, TestOutlines.area(set, "LOG1"), 1e-9);
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      value = {
        "\"memory array\" | \"cpu\" | unknown class 'cpu'",
        "<path | <text | a selector without a shape",
        "SvgSelector | TextQuoteSelector | has no SvgSelector",
        "ni:///sha-256;ASNF | ni:///sha-256;ASN | no valid ni URI",
        "<svg | <!DOCTYPE svg><svg | DOCTYPE",
        "AnnotationPage | Other | are not in the file"
      })
  void faults_areRefusedInASentence(String from, String to, String words) {
    String text =
        AnnotationWriter.text(SurveyOutlines.of(SmallSurvey.of(true), OutlineFrame.PHOTO_PX));
    String bad = text.replace(from, to);
    if (to.equals("Other")) {
      bad = bad.replace("AnnotationCollection", "Thing");
    }
    String json = bad;
    DieInputException e = assertThrows(DieInputException.class, () -> parse(json));
    assertTrue(e.getMessage().contains(words), e.getMessage());
  }
}
