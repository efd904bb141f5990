package org.diesurvey.classification.model;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Stream;
import java.util.zip.GZIPInputStream;
import java.util.zip.GZIPOutputStream;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.features.FeatureSchema;

/**
 * The written form of a model: gzip-compressed JSON, numbers only, safe to open whoever made it.
 * Members: format, format_version, name, classes, features, first, second and blocks (each with
 * centre, scale, stages, temperature), taught, strange_at, familiar (centre, inverse, border),
 * region_confidence, training.
 */
final class ModelFile {
  private static final String FORMAT = "diesurvey-tile-model";
  private static final int VERSION = 4;

  /** Models from this version on lack no more than the classifier of blocks. */
  private static final int OLDEST_VERSION = 2;

  /** Largest uncompressed model that is read, bytes. */
  private static final int LARGEST = 64 << 20;

  /**
   * Digits of weights shrink to a third to a half; a file that promises far more is a bomb. So much
   * more is allowed to small files.
   */
  private static final int MOST_EXPANSION = 10;

  private static final int HARMLESS = 1 << 20;

  /** Most hidden units of a network that is read. */
  private static final int MOST_HIDDEN = 4096;

  private ModelFile() {}

  static byte[] write(TileModel m) {
    ObjectMapper mapper = new ObjectMapper();
    ObjectNode root = mapper.createObjectNode();
    root.put("format", FORMAT);
    root.put("format_version", VERSION);
    root.put("name", m.name());
    ArrayNode classes = root.putArray("classes");
    for (SurfaceClass c : SurfaceClass.values()) {
      classes.add(c.name());
    }
    m.featureNames().forEach(root.putArray("features")::add);
    ensemble(root.putObject("first"), m.first());
    m.second().ifPresent(e -> ensemble(root.putObject("second"), e));
    m.blocks().ifPresent(e -> ensemble(root.putObject("blocks"), e));
    m.taught().ifPresent(t -> taught(root.putObject("taught"), t));
    root.put("strange_at", m.strangeAt());
    ObjectNode familiar = root.putObject("familiar");
    floats(familiar.putArray("centre"), m.familiar().centre());
    matrix(familiar.putArray("inverse"), m.familiar().inverse());
    familiar.put("border", m.familiar().border());
    ObjectNode region = root.putObject("region_confidence");
    RegionConfidence c = m.regionConfidence();
    region.put("slope", c.slope());
    region.put("size", c.size());
    region.put("memory", c.memory());
    region.put("macro", c.macro());
    region.put("logic", c.logic());
    region.put("ring", c.ring());
    ObjectNode training = root.putObject("training");
    m.training().forEach(training::put);
    try {
      ByteArrayOutputStream bytes = new ByteArrayOutputStream();
      try (GZIPOutputStream gzip = new GZIPOutputStream(bytes)) {
        gzip.write(mapper.writeValueAsBytes(root));
      }
      return bytes.toByteArray();
    } catch (IOException e) {
      throw new IllegalStateException("writing to memory failed", e);
    }
  }

  private static void taught(ObjectNode to, TaughtPart t) {
    matrix(to.putArray("centres"), t.centres().toArray(float[][]::new));
    ensemble(to.putObject("first"), t.first());
    t.second().ifPresent(e -> ensemble(to.putObject("second"), e));
  }

  private static void ensemble(ObjectNode to, Ensemble e) {
    floats(to.putArray("centre"), e.standardiser().centre());
    floats(to.putArray("scale"), e.standardiser().scale());
    ArrayNode stages = to.putArray("stages");
    for (Stage s : e.stages()) {
      ObjectNode stage = stages.addObject();
      stage.put("kind", s.kind());
      if (s instanceof NetworkStage n) {
        matrix(stage.putArray("inner"), n.inner());
        floats(stage.putArray("inner_bias"), n.innerBias());
        matrix(stage.putArray("outer"), n.outer());
        floats(stage.putArray("outer_bias"), n.outerBias());
      } else if (s instanceof LinearStage l) {
        matrix(stage.putArray("weights"), l.weights());
        floats(stage.putArray("bias"), l.bias());
      }
    }
    to.put("temperature", e.temperature());
  }

  static void matrix(ArrayNode to, float[][] rows) {
    for (float[] row : rows) {
      floats(to.addArray(), row);
    }
  }

  static void floats(ArrayNode to, float[] values) {
    for (float v : values) {
      to.add(v);
    }
  }

  static TileModel read(byte[] bytes, String file) {
    try (GZIPInputStream in = new GZIPInputStream(new ByteArrayInputStream(bytes))) {
      int most = (int) Math.min(LARGEST, HARMLESS + (long) MOST_EXPANSION * bytes.length);
      byte[] text = in.readNBytes(most + 1);
      if (text.length > most) {
        throw invalid(file, "unpacks to more than " + most + " bytes, as no model does");
      }
      return parse(new ObjectMapper().readTree(text), file);
    } catch (IOException e) {
      throw new DieInputException(
          Reason.MODEL_INVALID,
          file + " is not a model file of this program: train one, or do without --model.",
          e);
    }
  }

  private static TileModel parse(JsonNode root, String file) {
    if (root == null || !FORMAT.equals(root.path("format").asText())) {
      throw invalid(file, "does not say that it is a tile model");
    }
    int version = root.path("format_version").asInt();
    if (version < OLDEST_VERSION || version > VERSION) {
      throw invalid(file, "has format version " + root.path("format_version").asText());
    }
    List<String> classes = new ArrayList<>();
    root.path("classes").forEach(n -> classes.add(n.asText()));
    if (!classes.equals(Stream.of(SurfaceClass.values()).map(Enum::name).toList())) {
      throw invalid(file, "tells other classes apart than this version");
    }
    List<String> names = new ArrayList<>();
    root.path("features").forEach(n -> names.add(n.asText()));
    if (!names.equals(FeatureSchema.CURRENT.names())) {
      throw invalid(file, "was trained for other features than this version forms");
    }
    float strangeAt = (float) root.path("strange_at").asDouble();
    if (!positive(strangeAt)) {
      throw invalid(file, "lacks strange_at");
    }
    SortedMap<String, String> training = new TreeMap<>();
    root.path("training")
        .properties()
        .forEach(e -> training.put(e.getKey(), e.getValue().asText()));
    TileModel plain =
        new TileModel(
            root.path("name").asText("unnamed"),
            names,
            ensemble(root.path("first"), names.size(), file),
            root.has("second")
                ? Optional.of(ensemble(root.path("second"), ContextFeatures.SIZE, file))
                : Optional.empty(),
            root.has("blocks")
                ? Optional.of(ensemble(root.path("blocks"), BlockFeatures.size(names.size()), file))
                : Optional.empty(),
            strangeAt,
            familiar(root.path("familiar"), names.size(), file),
            regionConfidence(root.path("region_confidence"), file),
            Optional.empty(),
            training);
    return root.has("taught") ? plain.withTaught(taught(root.get("taught"), plain, file)) : plain;
  }

  private static TaughtPart taught(JsonNode node, TileModel plain, String file) {
    int photos = node.path("centres").size();
    if (photos < 1 || photos > TaughtPart.MOST_PHOTOS) {
      throw invalid(file, "was taught on " + photos + " photographs");
    }
    TaughtPart t =
        new TaughtPart(
            List.of(matrix(node.path("centres"), photos, plain.features(), file)),
            ensemble(node.path("first"), plain.features(), file),
            plain.second().isPresent()
                ? Optional.of(ensemble(node.path("second"), ContextFeatures.SIZE, file))
                : Optional.empty());
    if (!t.first().sameShape(plain.first())
        || (t.second().isPresent() && !t.second().get().sameShape(plain.second().orElseThrow()))) {
      throw invalid(file, "was taught from networks of another shape");
    }
    return t;
  }

  private static PictureFamiliarity familiar(JsonNode node, int features, String file) {
    float border = (float) node.path("border").asDouble();
    if (!positive(border)) {
      throw invalid(file, "lacks the border of familiar pictures");
    }
    return new PictureFamiliarity(
        array(node.path("centre"), features, file),
        matrix(node.path("inverse"), features, features, file),
        border);
  }

  private static Ensemble ensemble(JsonNode node, int features, String file) {
    List<Stage> stages = new ArrayList<>();
    for (JsonNode stage : node.path("stages")) {
      stages.add(stage(stage, features, file));
    }
    float temperature = (float) node.path("temperature").asDouble();
    if (stages.isEmpty() || !positive(temperature)) {
      throw invalid(file, "lacks stages or a temperature");
    }
    float[] scale = array(node.path("scale"), features, file);
    for (float s : scale) {
      if (!positive(s)) {
        throw invalid(file, "has a scale that is not above 0");
      }
    }
    return new Ensemble(
        new Standardiser(array(node.path("centre"), features, file), scale), stages, temperature);
  }

  private static boolean positive(float v) {
    return v > 0 && Float.isFinite(v);
  }

  private static Stage stage(JsonNode s, int features, String file) {
    String kind = s.path("kind").asText();
    if (!kind.equals(NetworkStage.KIND)) {
      return new LinearStage(
          kind,
          matrix(s.path("weights"), SurfaceClass.COUNT, features, file),
          array(s.path("bias"), SurfaceClass.COUNT, file));
    }
    int hidden = s.path("inner_bias").size();
    if (hidden < 1 || hidden > MOST_HIDDEN) {
      throw invalid(file, "has a network of " + hidden + " hidden units");
    }
    return new NetworkStage(
        matrix(s.path("inner"), features, hidden, file),
        array(s.path("inner_bias"), hidden, file),
        matrix(s.path("outer"), hidden, SurfaceClass.COUNT, file),
        array(s.path("outer_bias"), SurfaceClass.COUNT, file));
  }

  private static float[][] matrix(JsonNode node, int rows, int columns, String file) {
    if (node.size() != rows) {
      throw invalid(file, "has " + node.size() + " rows of weights where " + rows + " belong");
    }
    float[][] out = new float[rows][];
    for (int r = 0; r < rows; r++) {
      out[r] = array(node.path(r), columns, file);
    }
    return out;
  }

  private static RegionConfidence regionConfidence(JsonNode n, String file) {
    double[] v = new double[6];
    String[] names = {"slope", "size", "memory", "macro", "logic", "ring"};
    for (int i = 0; i < v.length; i++) {
      v[i] = n.path(names[i]).asDouble(Double.NaN);
      if (!Double.isFinite(v[i])) {
        throw invalid(file, "lacks region_confidence." + names[i]);
      }
    }
    return new RegionConfidence(v[0], v[1], v[2], v[3], v[4], v[5]);
  }

  private static float[] array(JsonNode node, int length, String file) {
    if (node.size() != length) {
      throw invalid(
          file, "has an array of " + node.size() + " numbers where " + length + " belong");
    }
    float[] out = new float[length];
    for (int i = 0; i < length; i++) {
      out[i] = (float) node.path(i).asDouble(Double.NaN);
      if (!Float.isFinite(out[i])) {
        throw invalid(file, "holds something that is not a finite number");
      }
    }
    return out;
  }

  private static DieInputException invalid(String file, String what) {
    return new DieInputException(
        Reason.MODEL_INVALID,
        file + " " + what + ": train a model with this version, or do without --model.");
  }

  static String sha256(byte[] bytes) {
    try {
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
