package org.diesurvey.interchange.gds;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
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
import org.diesurvey.raster.PlaneTransform;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.operation.union.UnaryUnionOp;

/**
 * Reads outlines from a GDSII stream with our layer map: boundaries and boxes, of the top structure
 * and of all that it places. Boundaries of one layer with one id (property 1) are joined again.
 */
public final class GdsReader {
  private static final int DEEPEST = 16;

  /** Pieces of one outline. */
  private record Key(GdsLayer layer, String id) {}

  private final GdsLibrary library;
  private final String place;
  private final OutlineNames names;
  private final Map<Key, List<GdsLibrary.Shape>> found = new LinkedHashMap<>();
  private Optional<Extent> extent = Optional.empty();
  private PhotoLink photo = PhotoLink.UNKNOWN;
  private int shapes;

  private GdsReader(GdsLibrary library, String place) {
    this.library = library;
    this.place = place;
    this.names = new OutlineNames(place);
  }

  /** The outlines in a stream; not checked as a set. */
  public static OutlineSet read(byte[] bytes, String place) {
    return new GdsReader(GdsLibrary.read(bytes, place), place).set();
  }

  private OutlineSet set() {
    double um = library.umPerUnit();
    walk(top(), new PlaneTransform(um, 0, 0, 0, um, 0), 0);
    found.keySet().forEach(k -> names.use(k.id));
    List<ClassedOutline> all = new ArrayList<>();
    found.forEach((key, pieces) -> outlines(key, pieces, all));
    return new OutlineSet(OutlineFrame.DIE_UM, extent, photo, InnerOutlines.placed(all, place));
  }

  private String top() {
    Set<String> names = new LinkedHashSet<>(library.structures().keySet());
    library.structures().values().forEach(s -> s.placed().forEach(p -> names.remove(p.name())));
    if (names.size() != 1) {
      throw Refused.file(
          place,
          names.isEmpty()
              ? "the stream has no top structure"
              : "the stream has "
                  + names.size()
                  + " top structures ("
                  + Refused.quoted(String.join(", ", names))
                  + "); keep the one with the outlines");
    }
    return names.iterator().next();
  }

  private void walk(String name, PlaneTransform map, int depth) {
    GdsLibrary.Structure s = library.structures().get(name);
    if (s == null) {
      throw Refused.file(
          place, "the structure '" + Refused.quoted(name) + "' is placed but not in the stream");
    }
    if (depth > DEEPEST) {
      throw Refused.file(
          place, "structures are placed in one another deeper than " + DEEPEST + "; flatten them");
    }
    s.shapes().forEach(shape -> take(shape, map));
    for (GdsLibrary.Placed p : s.placed()) {
      // Counted before the loop, or arrays of arrays of nothing would run for hours.
      count((long) p.columns() * p.rows());
      for (int row = 0; row < p.rows(); row++) {
        for (int column = 0; column < p.columns(); column++) {
          PlaneTransform shift =
              new PlaneTransform(
                  1,
                  0,
                  column * p.columnStep().x() + row * p.rowStep().x(),
                  0,
                  1,
                  column * p.columnStep().y() + row * p.rowStep().y());
          walk(p.name(), p.first().then(shift).then(map), depth + 1);
        }
      }
    }
  }

  private void count(long more) {
    if (shapes + more > OutlineChecks.MOST_OUTLINES) {
      throw Refused.file(
          place,
          "the stream places more than "
              + OutlineChecks.MOST_OUTLINES
              + " shapes; keep only the outlines");
    }
    shapes += (int) more;
  }

  private void take(GdsLibrary.Shape shape, PlaneTransform map) {
    count(1);
    List<Point> um =
        shape.ring().stream()
            .map(p -> new Point(map.x(p.x(), p.y()), map.y(p.x(), p.y())))
            .toList();
    String id = shape.properties().getOrDefault(GdsWriter.ID, "").strip();
    OutlineChecks.requireFinite(
        id.isEmpty() ? "on layer " + shape.layer().layer() : id, um, place, OutlineFrame.DIE_UM);
    if (shape.layer().equals(GdsLayer.DIE)) {
      die(um, shape.properties());
      return;
    }
    if (shape.layer().dieClass().isEmpty()) {
      throw Refused.file(
          place,
          String.format(
              Locale.ROOT,
              "layer %d, datatype %d is not in the layer map (%s); move or delete its shapes",
              shape.layer().layer(),
              shape.layer().datatype(),
              GdsLayer.MAP));
    }
    GdsLibrary.Shape moved = new GdsLibrary.Shape(shape.layer(), um, shape.properties());
    // Shapes without an id are outlines of their own: each gets a key that no id can have.
    Key key = new Key(shape.layer(), id.isEmpty() ? "\n" + found.size() : id);
    found.computeIfAbsent(key, k -> new ArrayList<>()).add(moved);
  }

  private void die(List<Point> um, Map<Integer, String> properties) {
    double w = um.stream().mapToDouble(Point::x).max().orElse(0);
    double h = um.stream().mapToDouble(Point::y).max().orElse(0);
    double left = um.stream().mapToDouble(Point::x).min().orElse(0);
    double low = um.stream().mapToDouble(Point::y).min().orElse(0);
    if (extent.isPresent() || Math.abs(left) > 1e-3 || Math.abs(low) > 1e-3 || !(w > 0 && h > 0)) {
      throw Refused.file(
          place,
          "layer 0 must hold one outline of the die with its lower left corner at the origin");
    }
    extent = Optional.of(new Extent(w, h));
    photo =
        new PhotoLink(
            Optional.empty(),
            Optional.ofNullable(properties.get(1))
                .filter(s -> s.matches("[0-9a-fA-F]{64}"))
                .map(s -> s.toLowerCase(Locale.ROOT)),
            pitch(properties.getOrDefault(2, "")));
  }

  private static OptionalDouble pitch(String text) {
    return text.matches("[0-9]{1,4}(\\.[0-9]{1,20})?")
        ? OptionalDouble.of(Double.parseDouble(text))
        : OptionalDouble.empty();
  }

  private void outlines(Key key, List<GdsLibrary.Shape> pieces, List<ClassedOutline> all) {
    DieClass c = key.layer.dieClass().orElseThrow();
    String id = key.id.startsWith("\n") ? names.invented(c) : key.id;
    boolean inner = key.layer.equals(GdsLayer.BIT_CELLS);
    Map<Integer, String> properties = pieces.get(0).properties();
    List<Outline> parts = joined(id, pieces);
    for (int i = 0; i < parts.size(); i++) {
      all.add(
          new ClassedOutline(
              OutlineNames.part(id, i),
              c,
              Optional.ofNullable(properties.get(GdsWriter.REASON))
                  .filter(r -> c == DieClass.UNCLEAR && !r.isBlank()),
              parts.get(i),
              inner
                  ? Optional.of(
                      properties.getOrDefault(GdsWriter.PART_OF, InnerOutlines.TO_BE_FOUND))
                  : Optional.empty(),
              Optional.empty(),
              Optional.empty(),
              Optional.empty(),
              Optional.empty()));
    }
  }

  private List<Outline> joined(String id, List<GdsLibrary.Shape> pieces) {
    List<Geometry> clean = new ArrayList<>();
    for (GdsLibrary.Shape s : pieces) {
      List<Outline> parts = OutlineShapes.evenOdd(List.of(s.ring()));
      if (parts.isEmpty()) {
        throw Refused.outline(
            place, id, "crosses itself or encloses no area: redraw it without crossings");
      }
      parts.forEach(p -> clean.add(OutlineShapes.polygon(p)));
    }
    return OutlineShapes.outlines(clean.size() == 1 ? clean.get(0) : UnaryUnionOp.union(clean));
  }
}
