package org.diesurvey.interchange.annotation;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.charset.StandardCharsets;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.diesurvey.classification.DieClass;
import org.diesurvey.interchange.ClassedOutline;
import org.diesurvey.interchange.Extent;
import org.diesurvey.interchange.InnerOutlines;
import org.diesurvey.interchange.OutlineChecks;
import org.diesurvey.interchange.OutlineFrame;
import org.diesurvey.interchange.OutlineNames;
import org.diesurvey.interchange.OutlineSet;
import org.diesurvey.interchange.PhotoLink;
import org.diesurvey.interchange.Refused;
import org.diesurvey.interchange.svg.SvgOutlines;
import org.diesurvey.interchange.svg.SvgWriter;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;

/**
 * Reads outlines from W3C Web Annotations: a collection with its first page, a page, a list, or one
 * annotation. Selectors: SvgSelector, and FragmentSelector with a pixel rectangle (Media Fragments
 * URI 1.0, 4.2.2).
 */
public final class AnnotationReader {
  private static final Pattern RECTANGLE =
      Pattern.compile(
          "xywh=(?:pixel:)?([0-9.]{1,20}),([0-9.]{1,20}),([0-9.]{1,20}),([0-9.]{1,20})");

  private final String place;
  private final OutlineNames names;
  private final Map<String, String> idOfAnnotation = new HashMap<>();
  private final List<ClassedOutline> all = new ArrayList<>();
  private Optional<Extent> extent = Optional.empty();
  private Optional<String> source = Optional.empty();

  private AnnotationReader(String place) {
    this.place = place;
    this.names = new OutlineNames(place);
  }

  /** Whether a document is of this kind. */
  public static boolean recognises(JsonNode root) {
    JsonNode first = root.isArray() ? root.path(0) : root;
    JsonNode context = first.path("@context");
    return context.asText().equals(AnnotationWriter.CONTEXT)
        || context.isArray()
            && java.util.stream.IntStream.range(0, context.size())
                .anyMatch(i -> context.get(i).asText().equals(AnnotationWriter.CONTEXT));
  }

  /** The outlines of a parsed document; not checked as a set. */
  public static OutlineSet read(JsonNode root, String place) {
    return new AnnotationReader(place).set(root);
  }

  private OutlineSet set(JsonNode root) {
    List<JsonNode> items = items(root);
    if (items.size() > OutlineChecks.MOST_OUTLINES) {
      throw Refused.file(
          place, "there are more than " + OutlineChecks.MOST_OUTLINES + " annotations");
    }
    items.forEach(a -> identifier(a).ifPresent(names::use));
    items.forEach(
        a -> identifier(a).ifPresent(id -> idOfAnnotation.put(a.path("id").asText(), id)));
    items.forEach(this::annotation);
    PhotoLink photo =
        new PhotoLink(Optional.empty(), source.flatMap(this::sha256), OptionalDouble.empty());
    return new OutlineSet(OutlineFrame.PHOTO_PX, extent, photo, InnerOutlines.placed(all, place));
  }

  private List<JsonNode> items(JsonNode root) {
    JsonNode list = root;
    if (type(root, "AnnotationCollection")) {
      list = root.path("first").path("items");
    } else if (type(root, "AnnotationPage")) {
      list = root.path("items");
    } else if (type(root, "Annotation")) {
      return List.of(root);
    }
    if (!list.isArray()) {
      throw Refused.file(
          place,
          "the annotations are not in the file; give a collection with its first page, a page, or"
              + " a list of annotations");
    }
    List<JsonNode> items = new ArrayList<>();
    list.forEach(items::add);
    return items;
  }

  private static boolean type(JsonNode node, String type) {
    return list(node.path("type")).stream().anyMatch(t -> t.asText().equals(type));
  }

  /** JSON-LD lets a single value stand for a list of one. */
  private static List<JsonNode> list(JsonNode node) {
    if (node.isMissingNode() || node.isNull()) {
      return List.of();
    }
    if (!node.isArray()) {
      return List.of(node);
    }
    List<JsonNode> all = new ArrayList<>();
    node.forEach(all::add);
    return all;
  }

  private Optional<String> identifier(JsonNode a) {
    return texts(a, "identifying").stream().findFirst();
  }

  private List<String> texts(JsonNode annotation, String purpose) {
    List<String> found = new ArrayList<>();
    for (JsonNode b : list(annotation.path("body"))) {
      if (b.path("purpose").asText().equals(purpose) && b.path("value").isTextual()) {
        found.add(OutlineNames.limited(b.path("value").textValue(), place));
      }
    }
    return found;
  }

  private void annotation(JsonNode a) {
    String called = identifier(a).orElse(a.path("id").asText("annotation " + (all.size() + 1)));
    List<String> tags = new ArrayList<>(texts(a, "tagging"));
    Optional<String> label =
        tags.stream()
            .filter(t -> OutlineNames.dieClass(t).isPresent() || t.equals(SvgWriter.BIT_CELLS))
            .findFirst()
            .or(() -> tags.stream().findFirst());
    boolean inner = label.equals(Optional.of(SvgWriter.BIT_CELLS));
    DieClass c = names.dieClass(called, label, inner);
    tags.remove(label.orElse(""));
    String id = identifier(a).map(String::strip).orElseGet(() -> names.invented(c));
    List<Outline> parts = shape(a, called);
    for (int i = 0; i < parts.size(); i++) {
      all.add(
          new ClassedOutline(
              OutlineNames.part(id, i),
              c,
              c == DieClass.UNCLEAR ? tags.stream().findFirst() : Optional.empty(),
              parts.get(i),
              inner ? Optional.of(memory(a).orElse(InnerOutlines.TO_BE_FOUND)) : Optional.empty(),
              texts(a, "commenting").stream().filter(t -> !t.isBlank()).findFirst(),
              author(a),
              time(a, called),
              Optional.empty()));
    }
  }

  private Optional<String> memory(JsonNode a) {
    return list(a.path("body")).stream()
        .filter(b -> b.path("purpose").asText().equals("linking"))
        .map(b -> idOfAnnotation.get(b.path("source").asText()))
        .filter(java.util.Objects::nonNull)
        .findFirst();
  }

  private Optional<String> author(JsonNode a) {
    return list(a.path("creator")).stream()
        .map(c -> c.path("name"))
        .filter(n -> n.isTextual() && !n.textValue().isBlank())
        .map(n -> OutlineNames.limited(n.textValue(), place))
        .findFirst();
  }

  private Optional<Instant> time(JsonNode a, String called) {
    String text = a.path("modified").asText(a.path("created").asText(""));
    if (text.isEmpty()) {
      return Optional.empty();
    }
    try {
      return Optional.of(OffsetDateTime.parse(text).toInstant());
    } catch (DateTimeException e) {
      throw Refused.outline(
          place,
          called,
          "has the time '" + Refused.quoted(text) + "'; write it as" + " 2026-01-31T12:00:00Z");
    }
  }

  private List<Outline> shape(JsonNode a, String called) {
    List<JsonNode> targets = list(a.path("target"));
    if (targets.size() != 1) {
      throw Refused.outline(place, called, "must have one target, the photograph");
    }
    JsonNode target = targets.get(0);
    remember(target.path("source"), called);
    for (JsonNode s : list(target.path("selector"))) {
      String value = s.path("value").asText();
      if (type(s, "SvgSelector")) {
        return svg(value, called);
      }
      Matcher m = RECTANGLE.matcher(value);
      if (type(s, "FragmentSelector") && m.matches()) {
        return List.of(rectangle(m, called));
      }
    }
    throw Refused.outline(
        place, called, "has no SvgSelector and no pixel rectangle (xywh): give it a shape");
  }

  private void remember(JsonNode node, String called) {
    String id = node.isTextual() ? node.textValue() : node.path("id").asText();
    if (source.isPresent() && !source.get().equals(id)) {
      throw Refused.outline(
          place, called, "lies on another photograph than those before: one file, one photograph");
    }
    source = Optional.of(id);
  }

  private List<Outline> svg(String value, String called) {
    SvgOutlines.Plain plain =
        SvgOutlines.plain(value.getBytes(StandardCharsets.UTF_8), place, called);
    if (extent.isEmpty()) {
      extent = plain.size();
    }
    return plain.parts();
  }

  private Outline rectangle(Matcher m, String called) {
    try {
      double x = Double.parseDouble(m.group(1));
      double y = Double.parseDouble(m.group(2));
      double right = x + Double.parseDouble(m.group(3));
      double low = y + Double.parseDouble(m.group(4));
      return new Outline(
          List.of(new Point(x, y), new Point(right, y), new Point(right, low), new Point(x, low)),
          List.of());
    } catch (NumberFormatException e) {
      throw Refused.outline(
          place, called, "has the rectangle '" + m.group() + "': give four numbers");
    }
  }

  private Optional<String> sha256(String id) {
    if (!id.startsWith(AnnotationWriter.BY_HASH)) {
      return Optional.empty();
    }
    try {
      byte[] hash =
          java.util.Base64.getUrlDecoder().decode(id.substring(AnnotationWriter.BY_HASH.length()));
      if (hash.length == 32) {
        return Optional.of(HexFormat.of().formatHex(hash));
      }
    } catch (IllegalArgumentException e) {
      // Told below: a name that cannot be decoded is as wrong as one that is too short.
    }
    throw Refused.file(
        place, "the photograph's name '" + Refused.quoted(id) + "' is no valid ni URI (RFC 6920)");
  }
}
