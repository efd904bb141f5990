package org.diesurvey.pipeline;

import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.classification.DieClass;
import org.diesurvey.estimates.MemoryKind;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;

/**
 * Reads outlines that a person drew or corrected: GeoJSON (RFC 7946) of the form that surveys write
 * as {@code regions.geojson}. A feature is a region, or with {@code kind} "bit-cell array" a part
 * of the memory region that {@code part_of} names. Measured properties such as areas are left
 * alone: they are measured anew.
 */
public final class OutlineFile {
  private static final int MOST_BYTES = 64 << 20;

  private static final JsonMapper MAPPER =
      JsonMapper.builder().enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION).build();

  private final Path file;
  private final Map<String, JsonNode> regions = new LinkedHashMap<>();
  private final Map<String, List<Outline>> arrays = new LinkedHashMap<>();

  private OutlineFile(Path file) {
    this.file = file;
  }

  /**
   * Reads a file.
   *
   * @throws DieInputException OUTLINES_INVALID, naming the feature and the remedy
   */
  public static HandOutlines read(Path file) {
    OutlineFile reader = new OutlineFile(file);
    byte[] bytes;
    try {
      if (Files.size(file) > MOST_BYTES) {
        throw reader.refused("the file is larger than 64 MiB", "leave away what is no outline");
      }
      bytes = Files.readAllBytes(file);
    } catch (IOException e) {
      throw new DieInputException(
          Reason.OUTLINES_INVALID,
          file + ": there is no outline file here that can be read; check the name.",
          e);
    }
    JsonNode root;
    try {
      root = MAPPER.readTree(bytes);
    } catch (IOException e) {
      throw new DieInputException(
          Reason.OUTLINES_INVALID,
          file + ": this is not JSON text; outlines are GeoJSON like regions.geojson of a survey.",
          e);
    }
    return reader.outlines(root, sha256(bytes));
  }

  private static String sha256(byte[] bytes) {
    try {
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }

  private HandOutlines outlines(JsonNode root, String sha256) {
    if (!"FeatureCollection".equals(root.path("type").asText())) {
      throw refused(
          "the member type is not \"FeatureCollection\"",
          "write outlines like regions.geojson of a survey");
    }
    boolean inUm = frame(root.path("coordinate_frame"));
    if (!root.path("features").isArray() || root.path("features").isEmpty()) {
      throw refused("there are no features", "draw at least one outline");
    }
    int n = 0;
    for (JsonNode f : root.path("features")) {
      sort(f, ++n);
    }
    for (String parent : arrays.keySet()) {
      JsonNode p = regions.get(parent);
      if (p == null || dieClass(parent, p) != DieClass.MEMORY_ARRAY) {
        throw refused(
            "a bit-cell array is part of \"" + parent + "\", which is no memory array of this file",
            "correct its part_of");
      }
    }
    List<HandOutline> all = new ArrayList<>();
    regions.forEach((id, f) -> all.add(region(id, f)));
    if (all.isEmpty()) {
      throw refused("there is no region", "draw at least one outline of kind \"region\"");
    }
    return new HandOutlines(
        String.valueOf(file.getFileName()),
        sha256,
        inUm,
        Optional.ofNullable(root.path("photo").path("sha256").textValue()),
        all);
  }

  private boolean frame(JsonNode frame) {
    String unit = frame.path("unit").asText();
    String axis = frame.path("y_axis").asText();
    if (unit.equals("um") && axis.equals("up")) {
      return true;
    }
    if (unit.equals("px") && axis.equals("down")) {
      return false;
    }
    throw refused(
        "the member coordinate_frame is missing or unknown",
        "say {\"unit\": \"um\", \"y_axis\": \"up\"} for micrometres from the lower left die corner,"
            + " or {\"unit\": \"px\", \"y_axis\": \"down\"} for pixels of the photograph");
  }

  private void sort(JsonNode f, int n) {
    JsonNode p = f.path("properties");
    String id = p.path("id").asText(f.path("id").asText());
    if (id.isBlank()) {
      throw refused("feature " + n + " has no id", "give every outline a short name of its own");
    }
    String kind = p.path("kind").asText("region");
    if (kind.equals("region")) {
      if (regions.put(id, f) != null) {
        throw refused("the id \"" + id + "\" is used twice", "give every outline its own");
      }
    } else if (kind.equals("bit-cell array")) {
      arrays
          .computeIfAbsent(p.path("part_of").asText(), k -> new ArrayList<>())
          .add(outline(id, f.path("geometry")));
    } else {
      throw refused(
          "\"" + id + "\" is of the unknown kind \"" + kind + "\"",
          "use \"region\" or \"bit-cell array\"");
    }
  }

  private HandOutline region(String id, JsonNode f) {
    JsonNode p = f.path("properties");
    DieClass c = dieClass(id, f);
    boolean memory = c == DieClass.MEMORY_ARRAY;
    if (!memory && (p.has("ports") || p.has("memory_kind"))) {
      throw refused(
          "\"" + id + "\" states ports or a memory kind but is no memory array",
          "take them away or correct its class");
    }
    OptionalInt ports = OptionalInt.empty();
    if (p.has("ports")) {
      int v = p.path("ports").isIntegralNumber() ? p.path("ports").asInt() : 0;
      if (v != 1 && v != 2) {
        throw refused("\"" + id + "\" has ports " + p.path("ports"), "state 1 or 2, or nothing");
      }
      ports = OptionalInt.of(v);
    }
    String stored = p.path("memory_kind").asText("static");
    MemoryKind kind =
        MemoryKind.ofLabel(stored)
            .orElseThrow(
                () ->
                    refused(
                        "\"" + id + "\" has the unknown memory_kind \"" + stored + "\"",
                        "use static, rom, dynamic or flash"));
    return new HandOutline(
        id,
        c,
        c == DieClass.UNCLEAR
            ? Optional.of(p.path("reason").asText("undecided"))
            : Optional.empty(),
        outline(id, f.path("geometry")),
        arrays.getOrDefault(id, List.of()),
        kind,
        ports);
  }

  private DieClass dieClass(String id, JsonNode f) {
    String label = f.path("properties").path("class").asText();
    for (DieClass c : DieClass.values()) {
      if (c != DieClass.OFF_DIE && c.label().equals(label)) {
        return c;
      }
    }
    throw refused(
        "\"" + id + "\" has the unknown class \"" + label + "\"",
        "use memory array, hard macro, logic, pad ring or unclear");
  }

  private Outline outline(String id, JsonNode geometry) {
    if (!"Polygon".equals(geometry.path("type").asText())
        || geometry.path("coordinates").isEmpty()) {
      throw refused(
          "\"" + id + "\" is no polygon", "draw it as one polygon; split what lies apart");
    }
    List<List<Point>> rings = new ArrayList<>();
    for (JsonNode ring : geometry.path("coordinates")) {
      rings.add(ring(id, ring));
    }
    return new Outline(rings.get(0), rings.subList(1, rings.size()));
  }

  private List<Point> ring(String id, JsonNode ring) {
    List<Point> corners = new ArrayList<>();
    for (JsonNode c : ring) {
      double x = c.path(0).isNumber() ? c.get(0).doubleValue() : Double.NaN;
      double y = c.path(1).isNumber() ? c.get(1).doubleValue() : Double.NaN;
      if (!Double.isFinite(x) || !Double.isFinite(y) || Math.abs(x) + Math.abs(y) > 1e9) {
        throw refused("\"" + id + "\" has a corner that is no pair of numbers", "correct it");
      }
      corners.add(new Point(x, y));
    }
    int last = corners.size() - 1;
    if (last < 3 || !corners.get(0).equals(corners.get(last))) {
      throw refused(
          "\"" + id + "\" has a ring that is not closed or has fewer than 3 corners",
          "end every ring with its first corner, as RFC 7946 asks");
    }
    return corners.subList(0, last);
  }

  private DieInputException refused(String why, String remedy) {
    return new DieInputException(
        Reason.OUTLINES_INVALID,
        file + ": these outlines cannot be used: " + why + "; " + remedy + ".");
  }
}
