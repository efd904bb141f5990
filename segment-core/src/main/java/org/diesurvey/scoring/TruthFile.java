package org.diesurvey.scoring;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.OptionalLong;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.classification.DieClass;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;

/**
 * Reads a truth file: a JSON object beside a photograph and its label map.
 *
 * <p>Members, all optional: {@code image}, {@code labels} (file name of the label map; else the
 * truth file's own name with {@code _labels.png}), {@code um_per_px}, {@code bond_pads}, {@code
 * bits_total}, {@code nand2_total}, {@code memory_arrays_inside_macros_um} (rectangles x, y, width,
 * height), {@code label_values} (name to code), and {@code inventory} or {@code polygons}: blocks
 * with {@code kind}, {@code polygon_px} and, where the block has a hole, {@code hole_px}. A block
 * that has holes in another form ({@code holes} in words, {@code holes_um} as rectangles) gives no
 * outline: its true edge is then the border of its class in the label map. Members unknown here are
 * left alone.
 */
public final class TruthFile {
  private static final Map<String, DieClass> KINDS =
      Map.of(
          "memory", DieClass.MEMORY_ARRAY,
          "macro", DieClass.HARD_MACRO,
          "logic", DieClass.LOGIC,
          "pad", DieClass.PAD_RING);

  private static final Map<String, Integer> CODES =
      Map.of("off", 0, "memory", 1, "macro", 2, "logic", 3, "pad", 4, "unscored", 255);

  private TruthFile() {}

  /**
   * Reads the truth file and the label map that belongs to it.
   *
   * @param json the truth file
   * @throws DieInputException if either file is missing or unreadable, or if the label map does not
   *     use the codes of {@link DieClass}
   */
  public static Truth read(Path json) {
    JsonNode root = object(json);
    String stem = stem(json);
    JsonNode declared = root.path("label_values");
    for (Map.Entry<String, Integer> e : CODES.entrySet()) {
      JsonNode code = declared.path(e.getKey());
      if (code.isNumber() && code.intValue() != e.getValue()) {
        throw new DieInputException(
            Reason.DOCUMENT_INVALID,
            json
                + ": label_values gives '"
                + e.getKey()
                + "' the code "
                + code.intValue()
                + "; expected "
                + e.getValue()
                + ", renumber the label map.");
      }
    }
    Path labelFile = json.resolveSibling(root.path("labels").asText(stem + "_labels.png"));
    LabelRaster labels = LabelFile.read(labelFile);
    requireKnownCodes(labels, labelFile);
    return new Truth(
        root.has("image") ? stem(Path.of(root.get("image").asText())) : stem,
        labels,
        number(root, "um_per_px"),
        outlines(root),
        rectangles(root.path("memory_arrays_inside_macros_um")),
        root.path("bond_pads").isIntegralNumber()
            ? OptionalInt.of(root.get("bond_pads").intValue())
            : OptionalInt.empty(),
        root.path("bits_total").isIntegralNumber()
            ? OptionalLong.of(root.get("bits_total").longValue())
            : OptionalLong.empty(),
        number(root, "nand2_total"));
  }

  private static JsonNode object(Path json) {
    if (!Files.isRegularFile(json)) {
      throw new DieInputException(
          Reason.FILE_MISSING, json + ": no such truth file; check the path.");
    }
    try {
      JsonNode root = JsonMapper.builder().build().readTree(Files.readAllBytes(json));
      if (root == null || !root.isObject()) {
        throw new DieInputException(
            Reason.DOCUMENT_INVALID, json + ": a truth file is one JSON object.");
      }
      return root;
    } catch (IOException e) {
      throw new DieInputException(
          Reason.DOCUMENT_INVALID, json + ": not readable as JSON; check the file.", e);
    }
  }

  private static void requireKnownCodes(LabelRaster labels, Path file) {
    for (byte b : labels.array()) {
      int code = b & 0xff;
      if (code > 4 && code != Truth.NOT_SCORED) {
        throw new DieInputException(
            Reason.DOCUMENT_INVALID,
            file + ": holds the code " + code + "; a label map uses 0 to 4 and 255.");
      }
    }
  }

  private static List<TruthOutline> outlines(JsonNode root) {
    List<TruthOutline> outlines = new ArrayList<>();
    for (String member : List.of("inventory", "polygons")) {
      for (JsonNode block : root.path(member)) {
        DieClass dieClass = KINDS.get(block.path("kind").asText());
        if (dieClass == null || hasHolesNotDrawnInPixels(block)) {
          continue;
        }
        Optional<List<Point>> shell = ring(block.path("polygon_px"));
        Optional<List<Point>> hole = ring(block.path("hole_px"));
        shell.ifPresent(
            s ->
                outlines.add(
                    new TruthOutline(
                        dieClass, new Outline(s, hole.map(List::of).orElse(List.of())))));
      }
    }
    return outlines;
  }

  private static boolean hasHolesNotDrawnInPixels(JsonNode block) {
    return !block.has("hole_px") && (block.has("holes") || block.has("holes_um"));
  }

  private static Optional<List<Point>> ring(JsonNode corners) {
    List<Point> points = new ArrayList<>();
    for (JsonNode c : corners) {
      if (c.path(0).isNumber() && c.path(1).isNumber()) {
        points.add(new Point(c.get(0).doubleValue(), c.get(1).doubleValue()));
      }
    }
    return points.size() < 3 ? Optional.empty() : Optional.of(points);
  }

  private static List<Truth.RectUm> rectangles(JsonNode list) {
    List<Truth.RectUm> result = new ArrayList<>();
    for (JsonNode r : list) {
      if (r.size() >= 4) {
        result.add(
            new Truth.RectUm(
                r.get(0).asDouble(),
                r.get(1).asDouble(),
                r.get(2).asDouble(),
                r.get(3).asDouble()));
      }
    }
    return result;
  }

  private static OptionalDouble number(JsonNode root, String member) {
    JsonNode n = root.path(member);
    return n.isNumber() && n.doubleValue() > 0
        ? OptionalDouble.of(n.doubleValue())
        : OptionalDouble.empty();
  }

  private static String stem(Path file) {
    String name = file.getFileName().toString();
    int dot = name.lastIndexOf('.');
    return dot > 0 ? name.substring(0, dot) : name;
  }
}
