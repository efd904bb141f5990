package org.diesurvey.classification.model;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.stream.Stream;
import java.util.zip.GZIPInputStream;
import java.util.zip.GZIPOutputStream;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.features.FeatureSchema;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.preparation.edges.DieSide;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class ModelFileTest {
  private static final ObjectMapper MAPPER = new ObjectMapper();

  private static float[] probabilities(TileModel m, FeatureTable die) {
    float[] out = new float[die.grid().count() * SurfaceClass.COUNT];
    float[] z = new float[m.features()];
    for (int t = 0; t < die.grid().count(); t++) {
      m.first().standardiser().apply(die.vectors().of(t), z);
      m.first().addProbabilities(z, out, t * SurfaceClass.COUNT);
    }
    return out;
  }

  @Test
  void writtenAndReadModel_givesTheSameProbabilitiesBitForBit() {
    TileModel model = TinyModels.random(9);
    byte[] bytes = ModelFile.write(model);
    TileModel read = ModelFile.read(bytes, "m");
    FeatureTable die = TinyModels.die(4);
    float[] p = probabilities(model, die);
    assertArrayEquals(p, probabilities(read, die));
    for (int t = 0; t < die.grid().count(); t++) {
      double sum = 0;
      for (int k = 0; k < SurfaceClass.COUNT; k++) {
        sum += p[t * SurfaceClass.COUNT + k];
      }
      assertEquals(1, sum, 1e-5);
    }
    assertEquals(model.regionConfidence(), read.regionConfidence());
    assertEquals(model.training(), read.training());
    assertEquals(model.strangeAt(), read.strangeAt());
    float[] mean = new float[model.features()];
    assertEquals(model.familiar().distance(mean), read.familiar().distance(mean));
    assertArrayEquals(bytes, ModelFile.write(read));
  }

  @Test
  void secondLook_survivesWritingAndReading() {
    TileModel model = TinyModels.withSecond(9);
    byte[] bytes = ModelFile.write(model);
    FeatureTable die = TinyModels.die(4);
    TileProbabilities a = TileClassifier.of(model).classify(die, List.of(DieSide.values()));
    TileProbabilities b = TileClassifier.of(bytes, "m").classify(die, List.of(DieSide.values()));
    TileProbabilities alone = TileClassifier.of(model).classifyAlone(die);
    boolean second = false;
    for (int t = 0; t < a.grid().count(); t++) {
      for (SurfaceClass c : SurfaceClass.values()) {
        assertEquals(a.get(t, c), b.get(t, c));
        second |= a.get(t, c) != alone.get(t, c);
      }
    }
    assertTrue(second, "the second look changed nothing");
  }

  /** Appendix B.1 of FIPS 180-2 for "abc" (from memory). */
  @Test
  void sha256_isThatOfTheStandard() {
    assertEquals(
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
        ModelFile.sha256("abc".getBytes(StandardCharsets.US_ASCII)));
  }

  @Test
  void shippedModel_loadsAndFitsTheFeatures() {
    TileClassifier shipped = TileClassifier.shipped();
    assertTrue(shipped.sha256().matches("[0-9a-f]{64}"));
    TileModel model = ModelFile.read(shipped.bytes(), "shipped");
    assertEquals(FeatureSchema.CURRENT.names(), model.featureNames());
    TileProbabilities p = shipped.classify(TinyModels.die(4), List.of());
    for (int t = 0; t < p.grid().count(); t++) {
      double sum = 0;
      for (SurfaceClass c : SurfaceClass.values()) {
        sum += p.get(t, c);
      }
      assertEquals(1, sum, 1e-4);
      assertTrue(p.strangeness(t) >= 0);
    }
  }

  private record Hostile(String what, byte[] bytes) {
    @Override
    public String toString() {
      return what;
    }
  }

  static Stream<Hostile> hostile() throws IOException {
    return Stream.of(
        new Hostile("empty file", new byte[0]),
        new Hostile("not compressed", "hello".getBytes(StandardCharsets.US_ASCII)),
        new Hostile("compressed nothing", gzip(new byte[0])),
        new Hostile("compressed noise", gzip(new byte[] {1, 2, 3})),
        new Hostile("JSON of another kind", gzip("[1,2]".getBytes(StandardCharsets.US_ASCII))),
        new Hostile("JSON null", gzip("null".getBytes(StandardCharsets.US_ASCII))),
        new Hostile(
            "100,000 brackets", gzip("[".repeat(100_000).getBytes(StandardCharsets.US_ASCII))),
        new Hostile("65 MiB of nothing in a small file", gzip(new byte[(64 << 20) + 1024])),
        new Hostile("cut in the middle", cut()),
        edited("another format", r -> r.put("format", "something else")),
        edited("a later version", r -> r.put("format_version", 5)),
        edited("other features", r -> ((ArrayNode) r.get("features")).set(3, "w03 colour")),
        edited("a feature less", r -> ((ArrayNode) r.get("features")).remove(0)),
        edited("classes in another order", ModelFileTest::swapClasses),
        edited("no centre", r -> first(r).remove("centre")),
        edited("NaN", r -> ((ArrayNode) first(r).get("centre")).set(0, "NaN")),
        edited("infinite", r -> ((ArrayNode) first(r).get("centre")).set(0, 1e300)),
        edited("a word for a number", r -> ((ArrayNode) first(r).get("scale")).set(0, "wide")),
        edited("scale 0", r -> ((ArrayNode) first(r).get("scale")).set(0, 0)),
        edited("an object for an array", ModelFileTest::objectForArray),
        edited("no stages", r -> first(r).putArray("stages")),
        edited("a row of weights less", r -> ((ArrayNode) stage(r, 0).get("weights")).remove(0)),
        edited("a short row", r -> ((ArrayNode) stage(r, 0).get("weights").get(2)).remove(0)),
        edited("no bias", r -> stage(r, 0).remove("bias")),
        edited("no hidden units", r -> stage(r, 1).putArray("inner_bias")),
        edited("an outer row less", r -> ((ArrayNode) stage(r, 1).get("outer")).remove(0)),
        edited("temperature 0", r -> first(r).put("temperature", 0)),
        edited("temperature infinite", r -> first(r).put("temperature", 1e300)),
        edited("no familiar pictures", r -> r.remove("familiar")),
        edited("border 0", r -> ((ObjectNode) r.get("familiar")).put("border", 0)),
        edited("no border", r -> r.remove("strange_at")),
        edited("no confidence", r -> r.remove("region_confidence")));
  }

  private static void swapClasses(ObjectNode r) {
    ArrayNode classes = (ArrayNode) r.get("classes");
    String first = classes.get(0).asText();
    classes.set(0, classes.get(1).asText());
    classes.set(1, first);
  }

  private static void objectForArray(ObjectNode r) {
    ObjectNode rows = MAPPER.createObjectNode();
    for (int i = 0; i < SurfaceClass.COUNT; i++) {
      rows.set("row" + i, stage(r, 0).get("weights").get(i));
    }
    stage(r, 0).set("weights", rows);
  }

  private static ObjectNode first(ObjectNode root) {
    return (ObjectNode) root.get("first");
  }

  private static ObjectNode stage(ObjectNode root, int i) {
    return (ObjectNode) first(root).get("stages").get(i);
  }

  private static Hostile edited(String what, Consumer<ObjectNode> edit) throws IOException {
    byte[] whole = ModelFile.write(TinyModels.random(9));
    ObjectNode root;
    try (GZIPInputStream in = new GZIPInputStream(new ByteArrayInputStream(whole))) {
      root = (ObjectNode) MAPPER.readTree(in);
    }
    edit.accept(root);
    return new Hostile(what, gzip(MAPPER.writeValueAsBytes(root)));
  }

  private static byte[] cut() {
    byte[] whole = ModelFile.write(TinyModels.random(9));
    return java.util.Arrays.copyOf(whole, whole.length / 2);
  }

  private static byte[] gzip(byte[] bytes) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (GZIPOutputStream gzip = new GZIPOutputStream(out)) {
      gzip.write(bytes);
    }
    return out.toByteArray();
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("hostile")
  void brokenModelFile_isRefusedByName(Hostile file) {
    DieInputException e =
        assertThrows(
            DieInputException.class, () -> TileClassifier.of(file.bytes(), "bench/odd.json.gz"));
    assertEquals(Reason.MODEL_INVALID, e.reason());
    assertTrue(e.getMessage().contains("bench/odd.json.gz"), e.getMessage());
  }

  @Test
  void unharmedFile_passesTheSameEditing() throws IOException {
    Hostile same = edited("nothing", r -> r.put("name", "renamed"));
    assertEquals("renamed", TileClassifier.of(same.bytes(), "m").name());
    assertEquals(Map.of("seeds", "1 to 3"), ModelFile.read(same.bytes(), "m").training());
  }
}
