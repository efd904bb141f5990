package org.diesurvey.survey.json;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.time.Instant;
import java.util.HexFormat;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.survey.SmallSurvey;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyDocument;
import org.diesurvey.survey.SurveyRegion;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class SurveyJsonTest {
  private static final Optional<Instant> CREATED =
      Optional.of(Instant.parse("2026-01-31T12:00:00Z"));
  private static final ObjectMapper MAPPER = new ObjectMapper();

  /** A validator of JSON Schema draft 2020-12 that this project did not write. */
  private static Schema schema() {
    return SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
        .getSchema(SurveyJson.schema());
  }

  private static String written(boolean scaled) {
    return new String(SurveyJson.write(SmallSurvey.of(scaled), CREATED), StandardCharsets.UTF_8);
  }

  @ParameterizedTest(name = "scaled {0}")
  @ValueSource(booleans = {true, false})
  void writtenSurvey_satisfiesThePublishedSchema(boolean scaled) {
    assertEquals("[]", schema().validate(written(scaled), InputFormat.JSON).toString());
  }

  @Test
  void schema_isItselfValid_strict_andDescribesEveryMember() throws Exception {
    JsonNode schema = MAPPER.readTree(SurveyJson.schema());
    Schema meta =
        SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
            .getSchema(
                com.networknt.schema.SchemaLocation.of(
                    "https://json-schema.org/draft/2020-12/schema"));
    assertEquals("[]", meta.validate(SurveyJson.schema(), InputFormat.JSON).toString());
    requireStrict(schema, "#");
  }

  private static void requireStrict(JsonNode node, String at) {
    if (node.has("properties") && !at.endsWith("/if")) {
      assertTrue(node.has("additionalProperties"), at + " is open");
      for (Iterator<String> it = node.get("properties").fieldNames(); it.hasNext(); ) {
        String name = it.next();
        assertFalse(
            node.get("properties").get(name).path("description").asText().isBlank(),
            at + "/" + name + " is not described");
      }
    }
    for (Iterator<String> it = node.fieldNames(); it.hasNext(); ) {
      String name = it.next();
      requireStrict(node.get(name), at + "/" + name);
    }
  }

  @ParameterizedTest(name = "scaled {0}")
  @ValueSource(booleans = {true, false})
  void writeReadWrite_givesTheSameBytes(boolean scaled) {
    byte[] first = SurveyJson.write(SmallSurvey.of(scaled), CREATED);
    SurveyDocument document = SurveyJson.parse(first, "test");
    assertArrayEquals(first, SurveyJson.write(document.survey(), document.created()));
    assertEquals(CREATED, document.created());
  }

  @Test
  void everyMember_isReadBack() {
    Survey before = SmallSurvey.of(true);
    Survey after = SurveyJson.parse(SurveyJson.write(before, CREATED), "test").survey();
    assertEquals(before.method().software(), after.method().software());
    assertEquals(before.photo(), after.photo());
    assertEquals(before.method(), after.method());
    assertEquals(before.scale(), after.scale());
    assertEquals(before.die(), after.die());
    assertEquals(before.method().nodeNm(), after.method().nodeNm());
    assertEquals(before.preparation(), after.preparation());
    assertEquals(before.notices(), after.notices());
    assertEquals(before.regions().size(), after.regions().size());
    for (int i = 0; i < before.regions().size(); i++) {
      SurveyRegion b = before.regions().get(i);
      SurveyRegion a = after.regions().get(i);
      assertEquals(b.inPhoto().outline(), a.inPhoto().outline());
      assertEquals(b.inDie(), a.inDie());
      assertEquals(b.verdict().probabilities(), a.verdict().probabilities());
      assertEquals(b.periods(), a.periods());
      assertEquals(b.neighbours(), a.neighbours());
      assertEquals(b.bondPads(), a.bondPads());
      assertEquals(
          b.area().memoryParts().map(m -> m.arrayMm2().value()),
          a.area().memoryParts().map(m -> m.arrayMm2().value()));
      assertEquals(
          b.area().memoryParts().map(m -> m.peripheryMm2().value()),
          a.area().memoryParts().map(m -> m.peripheryMm2().value()));
      assertEquals(b.verdict().reason(), a.verdict().reason());
      assertEquals(b.areaMm2().get().value(), a.areaMm2().get().value(), 1e-12);
      assertEquals(b.area().shareOfDie(), a.area().shareOfDie(), 5e-7);
      // The pitch is known to 0.5 %: that alone makes the 1 % of the areas.
      assertEquals(1, a.area().mm2().orElseThrow().scaleShare(), 0.02);
    }
    assertEquals(1, after.totals().get(0).mm2().orElseThrow().scaleShare(), 0.02);
    assertEquals(0.104167, after.totals().get(0).shareOfDie());
  }

  @Test
  void areas_keepSixSignificantDigits_coordinatesTwoDecimals() {
    assertEquals("0.390283", Rounding.significant(0.3902834, 6).toString());
    assertEquals("1234570", Rounding.significant(1234567.0, 6).toString());
    assertEquals("12.35", Rounding.decimals(12.3456, 2).toString());
    assertEquals("0", Rounding.decimals(-0.0, 2).toString());
    assertEquals("100", Rounding.decimals(100, 2).toString());
  }

  @Test
  void everyMemberRemoved_isRefusedBySchemaAndReaderAlike() throws Exception {
    ObjectNode whole = (ObjectNode) MAPPER.readTree(written(true));
    for (Iterator<String> it = whole.fieldNames(); it.hasNext(); ) {
      String name = it.next();
      ObjectNode less = whole.deepCopy();
      less.remove(name);
      boolean optional = name.equals("created") || name.equals("node_nm");
      assertEquals(optional, schema().validate(less.toString(), InputFormat.JSON).isEmpty(), name);
      if (optional) {
        SurveyJson.parse(less.toString().getBytes(StandardCharsets.UTF_8), "x.json");
      } else {
        assertTrue(refusal(less.toString()).contains(name), name);
      }
    }
  }

  @ParameterizedTest
  @CsvSource({
    "/regions/0/confidence, 1.5, regions[0].confidence",
    "/regions/0/class, '\"radio\"', regions[0].class",
    "/regions/0/outline_px/shell, '[[1,2],[3,4]]', regions[0].outline_px.shell",
    "/regions/1/outline_px/shell/2, '[1]', regions[1].outline_px.shell[2]",
    "/regions/2/bond_pads, 1.5, regions[2].bond_pads",
    "/photo/sha256, '\"xyz\"', photo.sha256",
    "/photo/width_px, 0, photo.width_px",
    "/scale/origin, '\"rumour\"', scale.origin",
    "/scale/extra, 1, scale.extra",
    "/die/area_mm2, -1, die.area_mm2",
    "/die/outline_px, '[[0,0],[1,0],[1,1]]', die.outline_px",
    "/settings/seed, 1, settings.seed",
    "/class_totals/0/share_of_die, '\"much\"', class_totals[0].share_of_die",
    "/created, '\"yesterday\"', created",
    "/notices/0/extra, 1, notices[0].extra"
  })
  void badMember_isRefusedByName(String pointer, String value, String named) throws Exception {
    String bad =
        changed(
            root -> {
              int cut = pointer.lastIndexOf('/');
              JsonNode parent = root.at(pointer.substring(0, cut));
              String last = pointer.substring(cut + 1);
              if (parent.isArray()) {
                ((com.fasterxml.jackson.databind.node.ArrayNode) parent)
                    .set(Integer.parseInt(last), json(value));
              } else {
                ((ObjectNode) parent).set(last, json(value));
              }
            });
    assertTrue(refusal(bad).contains(named), refusal(bad));
    if (!named.equals("created")) {
      // The validator takes "format" as a remark, as draft 2020-12 does by default.
      assertFalse(schema().validate(bad, InputFormat.JSON).isEmpty(), "schema accepts " + named);
    }
  }

  @Test
  void bitCellArraysWithoutTheOutlineAroundThem_areRefused() throws Exception {
    String bad = changed(r -> ((ObjectNode) r.at("/regions/0")).remove("outline_um"));
    assertTrue(refusal(bad).contains("outline_um"), refusal(bad));
    String none = changed(r -> ((ObjectNode) r.at("/regions/1")).remove("outline_um"));
    assertTrue(
        SurveyJson.parse(none.getBytes(StandardCharsets.UTF_8), "x.json")
            .survey()
            .regions()
            .get(1)
            .inDie()
            .isEmpty());
  }

  @Test
  void otherVersionsAndDocuments_areRefused() throws Exception {
    assertTrue(refusal(changed(r -> r.put("format_version", 2))).contains("format_version"));
    assertTrue(refusal("{\"format\":\"other\"}").contains("format"));
    assertTrue(refusal("[1]").contains("format"));
    assertTrue(refusal("hello").contains("not JSON"));
    assertTrue(refusal("").contains("format"));
    assertTrue(refusal("{\"format\":\"diesurvey-survey\",\"format\":1}").contains("not JSON"));
  }

  @Test
  void unknownReasonsAndAveraging_areRefused() throws Exception {
    String reason =
        refusal(changed(r -> ((ObjectNode) r.get("class_totals").get(0)).put("reason", "shy")));
    assertTrue(reason.contains("\"shy\" is no reason"), reason);
    for (String px : List.of("0", "-2", "1.5", "many")) {
      String said =
          refusal(changed(r -> ((ObjectNode) r.get("settings")).put("working_px_in_photo_px", px)));
      assertTrue(said.contains("a whole number of pixels"), said);
    }
  }

  @Test
  void absurdScale_isRefused() throws Exception {
    String bad = changed(r -> ((ObjectNode) r.get("scale")).put("um_per_px", 5000));
    DieInputException e =
        assertThrows(
            DieInputException.class,
            () -> SurveyJson.parse(bad.getBytes(StandardCharsets.UTF_8), "x.json"));
    assertEquals(Reason.DOCUMENT_INVALID, e.reason());
    assertTrue(e.getMessage().contains("scale"), e.getMessage());
  }

  @Test
  void file_isReadBack_andAMissingOneIsNamed(@TempDir Path folder) throws Exception {
    Path file = folder.resolve("survey.json");
    Files.write(file, SurveyJson.write(SmallSurvey.of(true), Optional.empty()));
    assertEquals(SmallSurvey.of(true).photo(), SurveyJson.read(file).photo());
    assertEquals(Optional.empty(), SurveyJson.readDocument(file).created());
    DieInputException e =
        assertThrows(DieInputException.class, () -> SurveyJson.read(folder.resolve("absent.json")));
    assertEquals(Reason.FILE_MISSING, e.reason());
    assertTrue(e.getMessage().contains("absent.json"));
  }

  private static JsonNode json(String text) {
    try {
      return MAPPER.readTree(text);
    } catch (java.io.IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  private static String changed(Consumer<ObjectNode> change) throws Exception {
    ObjectNode root = (ObjectNode) MAPPER.readTree(written(true));
    change.accept(root);
    return root.toString();
  }

  private static String refusal(String json) {
    DieInputException e =
        assertThrows(
            DieInputException.class,
            () -> SurveyJson.parse(json.getBytes(StandardCharsets.UTF_8), "x.json"));
    assertEquals(Reason.DOCUMENT_INVALID, e.reason());
    assertTrue(e.getMessage().startsWith("x.json"), e.getMessage());
    return e.getMessage();
  }

  @Test
  void surveyAlteredAfterItWasWritten_isRefused(@TempDir Path folder) throws Exception {
    byte[] bytes = SurveyJson.write(SmallSurvey.of(true), Optional.empty());
    Path file = Files.write(folder.resolve("survey.json"), bytes);
    String sum = HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    SurveyJson.read(file);
    Files.writeString(
        folder.resolve("checksums.sha256"),
        "0".repeat(64) + "  overlay.png\n" + sum + "  survey.json\n");
    SurveyJson.read(file);
    Files.writeString(file, Files.readString(file).replace("small.png", "other.png"));
    String said = assertThrows(DieInputException.class, () -> SurveyJson.read(file)).getMessage();
    assertTrue(said.contains("altered after it was written"), said);
    Files.writeString(folder.resolve("checksums.sha256"), "0".repeat(64) + "  overlay.png\n");
    SurveyJson.read(file);
  }
}
