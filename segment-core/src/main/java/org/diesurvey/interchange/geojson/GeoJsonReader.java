package org.diesurvey.interchange.geojson;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.diesurvey.classification.DieClass;
import org.diesurvey.estimates.MemoryKind;
import org.diesurvey.interchange.ClassedOutline;
import org.diesurvey.interchange.Extent;
import org.diesurvey.interchange.MemoryFacts;
import org.diesurvey.interchange.OutlineChecks;
import org.diesurvey.interchange.OutlineFrame;
import org.diesurvey.interchange.OutlineNames;
import org.diesurvey.interchange.OutlineSet;
import org.diesurvey.interchange.PhotoLink;
import org.diesurvey.interchange.Refused;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;

/**
 * Reads outlines from GeoJSON as {@link GeoJsonWriter} writes it. Strict in what it uses: the
 * frame, the class, closed rings of finite numbers. Members that it does not use may be there, as
 * RFC 7946 (section 6.1) has it.
 */
public final class GeoJsonReader {
  private final String place;

  private GeoJsonReader(String place) {
    this.place = place;
  }

  /** The outlines of a parsed document; not checked as a set. */
  public static OutlineSet read(JsonNode root, String place) {
    return new GeoJsonReader(place).collection(root);
  }

  private OutlineSet collection(JsonNode root) {
    JsonNode features = root.path("features");
    if (!root.path("type").asText().equals("FeatureCollection") || !features.isArray()) {
      throw Refused.file(
          place, "this is no GeoJSON FeatureCollection; give a file like regions.geojson");
    }
    JsonNode frame = root.path("coordinate_frame");
    List<ClassedOutline> all = new ArrayList<>();
    OutlineFrame unit = frame(frame);
    OutlineNames names = new OutlineNames(place);
    for (int i = 0; i < features.size(); i++) {
      if (i >= OutlineChecks.MOST_OUTLINES) {
        throw Refused.file(
            place, "there are more than " + OutlineChecks.MOST_OUTLINES + " outlines");
      }
      all.add(feature(features.get(i), i, names));
    }
    return new OutlineSet(unit, extent(frame), photo(root.path("photo")), all);
  }

  private OutlineFrame frame(JsonNode frame) {
    String unit = frame.path("unit").asText();
    String axis = frame.path("y_axis").asText();
    if (unit.equals("um") && axis.equals("up")) {
      return OutlineFrame.DIE_UM;
    }
    if (unit.equals("px") && axis.equals("down")) {
      return OutlineFrame.PHOTO_PX;
    }
    throw Refused.file(
        place,
        "the member coordinate_frame must say unit \"um\" with y_axis \"up\", or unit \"px\" with"
            + " y_axis \"down\", as in regions.geojson; longitude and latitude are not read");
  }

  private Optional<Extent> extent(JsonNode frame) {
    if (!frame.has("width") && !frame.has("height")) {
      return Optional.empty();
    }
    double w = frame.path("width").asDouble(-1);
    double h = frame.path("height").asDouble(-1);
    if (!(w > 0 && h > 0 && w <= 1e6 && h <= 1e6)) {
      throw Refused.file(
          place, "width and height in coordinate_frame must be numbers above 0 and up to 1e6");
    }
    return Optional.of(new Extent(w, h));
  }

  private PhotoLink photo(JsonNode photo) {
    Optional<String> sha = text(photo, "sha256", "photo");
    if (sha.isPresent() && !sha.get().matches("[0-9a-fA-F]{64}")) {
      throw Refused.file(place, "the photo's sha256 must be 64 hexadecimal digits");
    }
    OptionalDouble pitch = OptionalDouble.empty();
    if (photo.has("um_per_px")) {
      double v = photo.get("um_per_px").isNumber() ? photo.get("um_per_px").doubleValue() : -1;
      if (!(v > 0 && v <= 1e3)) {
        throw Refused.file(place, "the photo's um_per_px must be a number above 0");
      }
      pitch = OptionalDouble.of(v);
    }
    return new PhotoLink(
        text(photo, "file_name", "photo"),
        sha.map(s -> s.toLowerCase(java.util.Locale.ROOT)),
        pitch);
  }

  private ClassedOutline feature(JsonNode feature, int index, OutlineNames names) {
    JsonNode p = feature.path("properties");
    String id = id(feature, p, index);
    if (!feature.path("type").asText().equals("Feature")) {
      throw Refused.outline(place, id, "is no GeoJSON Feature");
    }
    Optional<String> partOf = text(p, "part_of", id);
    String kind = p.path("kind").asText("region");
    if (!kind.equals("region") && !kind.equals("bit-cell array")) {
      throw Refused.outline(
          place,
          id,
          "is of the unknown kind '" + Refused.quoted(kind) + "': use region or bit-cell array");
    }
    boolean inner = partOf.isPresent() || kind.equals("bit-cell array");
    if (inner && partOf.isEmpty()) {
      throw Refused.outline(
          place, id, "is a bit-cell array without the member part_of: name its memory");
    }
    DieClass dieClass = names.dieClass(id, text(p, "class", id), inner);
    return new ClassedOutline(
            id,
            dieClass,
            text(p, "reason", id),
            polygon(feature.path("geometry"), id),
            partOf,
            text(p, "note", id),
            text(p, "author", id),
            text(p, "time", id).map(t -> time(t, id)),
            Optional.empty())
        .withMemory(memory(p, id, dieClass == DieClass.MEMORY_ARRAY && !inner));
  }

  private Optional<MemoryFacts> memory(JsonNode p, String id, boolean isMemory) {
    if (!p.has("ports") && !p.has("memory_kind")) {
      return Optional.empty();
    }
    if (!isMemory) {
      throw Refused.outline(
          place, id, "states ports or a memory kind but is no memory array: take them away");
    }
    OptionalInt ports = OptionalInt.empty();
    if (p.has("ports")) {
      int v = p.path("ports").isIntegralNumber() ? p.path("ports").asInt() : 0;
      if (v != 1 && v != 2) {
        throw Refused.outline(
            place,
            id,
            "has ports " + Refused.quoted(p.path("ports").asText()) + ": state 1 or 2, or nothing");
      }
      ports = OptionalInt.of(v);
    }
    String stored = p.path("memory_kind").asText("static");
    MemoryKind kind =
        MemoryKind.ofLabel(stored)
            .orElseThrow(
                () ->
                    Refused.outline(
                        place,
                        id,
                        "has the unknown memory_kind '"
                            + Refused.quoted(stored)
                            + "': use static, rom, dynamic or flash"));
    return Optional.of(new MemoryFacts(kind, ports));
  }

  /** The member id of the feature, of its properties, or a number where it has none. */
  private String id(JsonNode feature, JsonNode properties, int index) {
    JsonNode id = feature.has("id") ? feature.get("id") : properties.path("id");
    String text = id.isTextual() || id.isNumber() ? id.asText().strip() : "";
    return text.isEmpty() ? "outline-" + (index + 1) : OutlineNames.limited(text, place);
  }

  private Optional<String> text(JsonNode node, String name, String id) {
    JsonNode v = node.path(name);
    if (v.isMissingNode() || v.isNull()) {
      return Optional.empty();
    }
    if (!v.isTextual()) {
      throw Refused.outline(place, id, "has a member " + name + " that is no text");
    }
    String s = OutlineNames.limited(v.textValue(), place);
    return s.isBlank() ? Optional.empty() : Optional.of(s);
  }

  private Instant time(String text, String id) {
    try {
      return OffsetDateTime.parse(text).toInstant();
    } catch (DateTimeException e) {
      throw Refused.outline(
          place,
          id,
          "has the time '" + Refused.quoted(text) + "'; write it as" + " 2026-01-31T12:00:00Z");
    }
  }

  private Outline polygon(JsonNode geometry, String id) {
    JsonNode rings = geometry.path("coordinates");
    String type = geometry.path("type").asText();
    if (type.equals("MultiPolygon") && rings.size() == 1) {
      rings = rings.get(0);
    } else if (!type.equals("Polygon")) {
      throw Refused.outline(
          place,
          id,
          type.equals("MultiPolygon")
              ? "has several parts: make each part an outline of its own"
              : "has the geometry '" + Refused.quoted(type) + "': only Polygon is read");
    }
    if (!rings.isArray() || rings.isEmpty()) {
      throw Refused.outline(place, id, "has no rings: redraw or delete it");
    }
    List<List<Point>> all = new ArrayList<>();
    for (JsonNode ring : rings) {
      all.add(ring(ring, id));
    }
    return new Outline(all.get(0), all.subList(1, all.size()));
  }

  private List<Point> ring(JsonNode ring, String id) {
    List<Point> corners = new ArrayList<>();
    for (JsonNode c : ring) {
      if (!c.isArray() || c.size() < 2 || !c.get(0).isNumber() || !c.get(1).isNumber()) {
        throw Refused.outline(
            place, id, "has a corner that is no pair of numbers: correct the coordinates");
      }
      corners.add(new Point(c.get(0).doubleValue(), c.get(1).doubleValue()));
    }
    // RFC 7946, 3.1.6: four or more positions, the last equal to the first.
    int last = corners.size() - 1;
    if (last < 3 || !corners.get(0).equals(corners.get(last))) {
      throw Refused.outline(
          place,
          id,
          "has a ring that is not closed (at least 4 positions, the last equal to the first)");
    }
    return corners.subList(0, last);
  }
}
