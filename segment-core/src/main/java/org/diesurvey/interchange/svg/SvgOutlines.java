package org.diesurvey.interchange.svg;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Stream;
import org.diesurvey.classification.DieClass;
import org.diesurvey.interchange.ClassedOutline;
import org.diesurvey.interchange.Extent;
import org.diesurvey.interchange.InnerOutlines;
import org.diesurvey.interchange.OutlineChecks;
import org.diesurvey.interchange.OutlineFrame;
import org.diesurvey.interchange.OutlineNames;
import org.diesurvey.interchange.OutlineSet;
import org.diesurvey.interchange.OutlineShapes;
import org.diesurvey.interchange.PhotoLink;
import org.diesurvey.interchange.Refused;
import org.diesurvey.interchange.svg.SvgReader.Drawing;
import org.diesurvey.interchange.svg.SvgReader.Element;
import org.diesurvey.raster.PlaneTransform;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;

/**
 * The outlines of an SVG drawing, in px of the photograph. The class of a shape is that of the
 * nearest group around it that names one: by the attribute {@code data-class}, by its id or by its
 * title. The linked picture fixes the scale: if an editor moved or scaled the whole drawing, its
 * rectangle says how. Without a picture one unit is one pixel.
 */
public final class SvgOutlines {
  private final String place;
  private final Drawing drawing;
  private final OutlineNames names;
  private final Set<String> taken = new HashSet<>();

  private SvgOutlines(Drawing drawing, String place) {
    this.drawing = drawing;
    this.place = place;
    this.names = new OutlineNames(place);
  }

  /** The outlines in SVG bytes; not checked as a set. */
  public static OutlineSet read(byte[] bytes, String place) {
    return new SvgOutlines(SvgReader.read(bytes, place), place).set();
  }

  /**
   * The shapes of a drawing without groups or classes.
   *
   * @param parts areas by the even-odd rule
   * @param size width and height of the drawing where both are plain numbers
   */
  public record Plain(List<Outline> parts, Optional<Extent> size) {}

  /** The shapes of a drawing that stands for one outline, one unit a pixel. */
  public static Plain plain(byte[] bytes, String place, String called) {
    SvgOutlines s = new SvgOutlines(SvgReader.read(bytes, place), place);
    List<Outline> parts = new ArrayList<>();
    for (Element shape : s.drawing.shapes()) {
      parts.addAll(s.parts(shape, shape.toRoot(), called));
    }
    if (parts.isEmpty()) {
      throw Refused.outline(place, called, "has a selector without a shape: redraw or delete it");
    }
    Element root = s.drawing.root();
    boolean sized =
        Stream.of("width", "height")
            .allMatch(n -> root.attribute(n).filter(v -> v.matches("[0-9.]+(px)?")).isPresent());
    return new Plain(
        parts,
        sized
            ? Optional.of(
                new Extent(
                    s.positive(root, "width").orElseThrow(),
                    s.positive(root, "height").orElseThrow()))
            : Optional.empty());
  }

  private OutlineSet set() {
    Element root = drawing.root();
    Optional<Extent> photo = extent(root);
    PlaneTransform toPhoto = toPhoto(photo);
    drawing.shapes().forEach(s -> s.attribute("id").ifPresent(names::use));
    drawing.shapes().forEach(s -> s.attribute("data-id").ifPresent(names::use));
    List<ClassedOutline> all = new ArrayList<>();
    for (Element shape : drawing.shapes()) {
      outlines(shape, toPhoto, all);
    }
    PhotoLink link =
        new PhotoLink(
            root.attribute("data-photo-name"),
            root.attribute("data-photo-sha256")
                .filter(h -> h.matches("[0-9a-fA-F]{64}"))
                .map(h -> h.toLowerCase(Locale.ROOT)),
            positive(root, "data-um-per-px"));
    return new OutlineSet(OutlineFrame.PHOTO_PX, photo, link, InnerOutlines.placed(all, place));
  }

  private Optional<Extent> extent(Element root) {
    OptionalDouble w = positive(root, "data-photo-width");
    OptionalDouble h = positive(root, "data-photo-height");
    return w.isPresent() && h.isPresent()
        ? Optional.of(new Extent(w.getAsDouble(), h.getAsDouble()))
        : Optional.empty();
  }

  private OptionalDouble positive(Element e, String name) {
    if (e.attribute(name).isEmpty()) {
      return OptionalDouble.empty();
    }
    double v = length(e, name);
    if (!(v > 0 && v <= 1e6)) {
      throw Refused.file(place, "the attribute " + name + " must be above 0 and up to 1e6");
    }
    return OptionalDouble.of(v);
  }

  private PlaneTransform toPhoto(Optional<Extent> photo) {
    if (photo.isEmpty() || drawing.image().isEmpty()) {
      return PlaneTransform.IDENTITY;
    }
    Element i = drawing.image().get();
    double w = length(i, "width");
    double h = length(i, "height");
    if (!(w > 0 && h > 0)) {
      throw Refused.file(
          place, "the linked photograph has no size; give its width and height, or remove it");
    }
    PlaneTransform unitToRoot =
        new PlaneTransform(
                w / photo.get().width(),
                0,
                length(i, "x"),
                0,
                h / photo.get().height(),
                length(i, "y"))
            .then(i.toRoot());
    try {
      return unitToRoot.inverse();
    } catch (IllegalArgumentException e) {
      throw Refused.file(place, "the linked photograph is scaled to nothing; restore its size", e);
    }
  }

  private void outlines(Element shape, PlaneTransform toPhoto, List<ClassedOutline> all) {
    Optional<String> label = label(shape);
    boolean inner = label.map(SvgOutlines::isBitCells).orElse(false);
    String called = called(shape);
    DieClass c = names.dieClass(called, label, inner);
    String id = id(shape, c);
    List<Outline> parts = parts(shape, shape.toRoot().then(toPhoto), called);
    for (int i = 0; i < parts.size(); i++) {
      all.add(
          new ClassedOutline(
              OutlineNames.part(id, i),
              c,
              c == DieClass.UNCLEAR ? text(shape, "data-reason") : Optional.empty(),
              parts.get(i),
              inner
                  ? Optional.of(text(shape, "data-part-of").orElse(InnerOutlines.TO_BE_FOUND))
                  : Optional.empty(),
              text(shape, "data-note"),
              text(shape, "data-author"),
              text(shape, "data-time").map(t -> time(t, called)),
              Optional.empty()));
    }
  }

  private Optional<String> text(Element shape, String name) {
    return shape.attribute(name).filter(t -> !t.isBlank()).map(t -> OutlineNames.limited(t, place));
  }

  private Instant time(String text, String id) {
    try {
      return OffsetDateTime.parse(text).toInstant();
    } catch (DateTimeException e) {
      throw Refused.outline(place, id, "has the time '" + Refused.quoted(text) + "'; remove it");
    }
  }

  /** What the nearest element around a shape calls a class; else what a group is called. */
  private Optional<String> label(Element shape) {
    Optional<String> unknown = Optional.empty();
    for (Optional<Element> e = Optional.of(shape); e.isPresent(); e = e.get().parent()) {
      Element at = e.get();
      if (at.attribute("data-class").isPresent()) {
        return at.attribute("data-class");
      }
      if (!at.name().equals("g")) {
        continue;
      }
      for (String name : List.of(at.title().toString(), at.attribute("id").orElse(""))) {
        String plain = name.strip().replaceFirst("^class-", "");
        if (OutlineNames.dieClass(plain).isPresent() || isBitCells(plain)) {
          return Optional.of(plain);
        }
        if (unknown.isEmpty() && !plain.isEmpty()) {
          unknown = Optional.of(plain);
        }
      }
    }
    return unknown;
  }

  private static boolean isBitCells(String label) {
    return label
        .strip()
        .toLowerCase(Locale.ROOT)
        .replace('-', ' ')
        .replace('_', ' ')
        .equals("bit cell array");
  }

  private static String called(Element shape) {
    return shape
        .attribute("data-id")
        .or(() -> shape.attribute("id"))
        .orElse("a " + shape.name() + " without an id");
  }

  /** Copies made in an editor carry the data-id of the original: they get their own id instead. */
  private String id(Element shape, DieClass c) {
    for (String name : List.of("data-id", "id")) {
      Optional<String> id = text(shape, name).map(String::strip);
      if (id.isPresent() && taken.add(id.get())) {
        return id.get();
      }
    }
    String id = names.invented(c);
    taken.add(id);
    return id;
  }

  private List<Outline> parts(Element shape, PlaneTransform toPhoto, String called) {
    List<List<Point>> rings = new ArrayList<>();
    for (List<Point> ring : rings(shape, called)) {
      List<Point> moved =
          ring.stream()
              .map(p -> new Point(toPhoto.x(p.x(), p.y()), toPhoto.y(p.x(), p.y())))
              .toList();
      OutlineChecks.requireFinite(called, moved, place, OutlineFrame.PHOTO_PX);
      rings.add(moved);
    }
    List<Outline> parts = OutlineShapes.evenOdd(rings);
    if (parts.isEmpty()) {
      throw Refused.outline(
          place, called, "crosses itself or encloses no area: redraw it without crossings");
    }
    return parts;
  }

  private List<List<Point>> rings(Element shape, String called) {
    try {
      return switch (shape.name()) {
        case "path" -> SvgPathData.rings(shape.attribute("d").orElse(""));
        case "rect" -> rectangle(shape);
        case "circle" -> ellipse(shape, length(shape, "r"), length(shape, "r"));
        case "ellipse" -> ellipse(shape, length(shape, "rx"), length(shape, "ry"));
        default -> polygon(SvgNumbers.all(shape.attribute("points").orElse("")));
      };
    } catch (IllegalArgumentException e) {
      throw Refused.outline(
          place, called, "cannot be read (" + e.getMessage() + "): save it as a plain path");
    }
  }

  private List<List<Point>> rectangle(Element r) {
    double x = length(r, "x");
    double y = length(r, "y");
    double w = length(r, "width");
    double h = length(r, "height");
    return SvgPathData.rings("M" + x + "," + y + "h" + w + "v" + h + "h" + -w + "z");
  }

  private List<List<Point>> ellipse(Element e, double rx, double ry) {
    double cx = length(e, "cx");
    double cy = length(e, "cy");
    String arc = "A" + rx + "," + ry + ",0,0,1,";
    return SvgPathData.rings(
        "M" + (cx - rx) + "," + cy + arc + (cx + rx) + "," + cy + arc + (cx - rx) + "," + cy + "z");
  }

  private static List<List<Point>> polygon(List<Double> v) {
    if (v.size() % 2 != 0) {
      throw new IllegalArgumentException("an odd number of coordinates");
    }
    List<Point> ring = new ArrayList<>();
    for (int i = 0; i < v.size(); i += 2) {
      ring.add(new Point(v.get(i), v.get(i + 1)));
    }
    List<Point> distinct = OutlineShapes.distinct(ring);
    return distinct.size() < 3 ? List.of() : List.of(distinct);
  }

  /** A length in user units; 0 where the attribute is missing. */
  private double length(Element e, String name) {
    String text = e.attribute(name).orElse("0").strip();
    if (!text.matches("[-+]?[0-9.]{1,40}([eE][-+]?[0-9]{1,4})?(px)?")) {
      throw Refused.file(
          place,
          "the attribute "
              + name
              + " of '"
              + Refused.quoted(called(e))
              + "' is '"
              + Refused.quoted(text)
              + "'; give it as a plain number");
    }
    try {
      return Double.parseDouble(text.replace("px", ""));
    } catch (NumberFormatException x) {
      throw Refused.file(place, "the attribute " + name + " is not a number", x);
    }
  }
}
