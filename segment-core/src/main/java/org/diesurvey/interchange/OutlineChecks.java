package org.diesurvey.interchange;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.diesurvey.DieInputException;
import org.diesurvey.classification.DieClass;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.geom.TopologyException;
import org.locationtech.jts.geom.util.GeometryFixer;
import org.locationtech.jts.index.strtree.STRtree;
import org.locationtech.jts.operation.valid.IsValidOp;
import org.locationtech.jts.operation.valid.TopologyValidationError;

/** What every set of outlines must satisfy before anything is computed from it. */
public final class OutlineChecks {
  /** Most outlines in a set; a die has some hundreds. */
  public static final int MOST_OUTLINES = 20_000;

  /** Most corners in a set. */
  public static final int MOST_CORNERS = 1_000_000;

  /** Longest id, note or name, characters. */
  static final int LONGEST_TEXT = 10_000;

  /** Longest id, characters; ids stand in tables. */
  static final int LONGEST_ID = 200;

  /** Largest coordinate: 1 m on the die, and more than any photograph has pixels. */
  private static final double LARGEST = 1e6;

  /** Share of the smaller of two regions that both may cover: hands and rounding are not exact. */
  private static final double COMMON_SHARE = 0.01;

  /** How far outlines may reach over the border, as a share of its longer side. */
  private static final double OVER_BORDER = 0.01;

  /** Share of a bit-cell array that must lie in its memory. */
  private static final double INSIDE_SHARE = 0.5;

  private OutlineChecks() {}

  /**
   * The same set, once it is clear that its ids are unique; that every ring is free of crossings,
   * finite and within 1e6 (holes that touch their outline or each other along an edge are joined);
   * that it lies within the extent, if known (1 % of the longer side may stick out); that regions
   * with a class do not share more than 1 % of the smaller one; and that bit-cell arrays lie mostly
   * in a memory of the set.
   *
   * @param place what to call the file in messages
   * @throws DieInputException DOCUMENT_INVALID: which outline, what, what to do
   */
  public static OutlineSet checked(OutlineSet given, String place) {
    requireCounts(given, place);
    Map<String, Polygon> shapes = new HashMap<>();
    List<ClassedOutline> clean = new ArrayList<>();
    for (ClassedOutline o : given.outlines()) {
      requireFinite(o, place, given.frame());
      if (o.id().length() > LONGEST_ID) {
        throw Refused.outline(
            place,
            o.id(),
            "has an id of "
                + o.id().length()
                + " characters: give it one of at most "
                + LONGEST_ID);
      }
      Polygon drawn = OutlineShapes.polygon(o.shape());
      Polygon shape = shape(o, drawn, place, given.frame());
      clean.add(shape == drawn ? o : o.withShape(OutlineShapes.outline(shape)));
      if (shapes.put(o.id(), shape) != null) {
        throw Refused.outline(place, o.id(), "appears twice: give each outline an id of its own");
      }
    }
    OutlineSet set = new OutlineSet(given.frame(), given.extent(), given.photo(), clean);
    set.extent().ifPresent(e -> requireInside(set, e, shapes, place));
    requireParents(set, shapes, place);
    requireApart(set, shapes, place);
    return set;
  }

  /**
   * Refuses outlines that name another photograph.
   *
   * @param link what the outlines say
   * @param sha256 of the photograph at hand
   * @throws DieInputException DOCUMENT_INVALID
   */
  public static void requirePhoto(PhotoLink link, String sha256, String place) {
    if (link.sha256().isPresent() && !link.sha256().get().equalsIgnoreCase(sha256)) {
      throw Refused.file(
          place,
          String.format(
              Locale.ROOT,
              "the outlines belong to another photograph%s (SHA-256 %.12s..., here %.12s...); use"
                  + " the photograph they were drawn on",
              link.fileName().map(n -> ", '" + Refused.quoted(n) + "'").orElse(""),
              link.sha256().get(),
              sha256));
    }
  }

  private static void requireCounts(OutlineSet set, String place) {
    if (set.outlines().size() > MOST_OUTLINES) {
      throw Refused.file(
          place,
          "there are "
              + set.outlines().size()
              + " outlines, at most "
              + MOST_OUTLINES
              + " are read");
    }
    long corners = 0;
    for (ClassedOutline o : set.outlines()) {
      corners += o.shape().shell().size();
      corners += o.shape().holes().stream().mapToLong(List::size).sum();
    }
    if (corners > MOST_CORNERS) {
      throw Refused.file(
          place, "there are " + corners + " corners, at most " + MOST_CORNERS + " are read");
    }
  }

  private static void requireFinite(ClassedOutline o, String place, OutlineFrame frame) {
    requireFinite(o.id(), o.shape().shell(), place, frame);
    o.shape().holes().forEach(h -> requireFinite(o.id(), h, place, frame));
  }

  /** Refuses corners that no geometry can be made of. */
  public static void requireFinite(String id, List<Point> ring, String place, OutlineFrame frame) {
    for (Point p : ring) {
      if (!(Math.abs(p.x()) <= LARGEST && Math.abs(p.y()) <= LARGEST)) {
        throw Refused.outline(
            place,
            id,
            "has a corner at "
                + at(p.x(), p.y(), frame)
                + ", which is on no die: correct the corner");
      }
    }
  }

  private static Polygon shape(ClassedOutline o, Polygon drawn, String place, OutlineFrame frame) {
    TopologyValidationError error = new IsValidOp(drawn).getValidationError();
    Polygon p = error == null ? drawn : joined(o.shape()).orElse(null);
    if (p == null) {
      String spot =
          error.getCoordinate() == null
              ? ""
              : " near " + at(error.getCoordinate().x, error.getCoordinate().y, frame);
      throw Refused.outline(
          place, o.id(), wrong(error.getErrorType()) + spot + ": redraw it there");
    }
    if (!(p.getArea() > 0)) {
      throw Refused.outline(place, o.id(), "encloses no area: redraw or delete it");
    }
    return p;
  }

  /** The area of rings that touch but do not cross, if it is one piece; else empty. */
  private static Optional<Polygon> joined(Outline shape) {
    List<List<Point>> rings = new ArrayList<>(shape.holes());
    rings.add(0, shape.shell());
    double drawn = Math.abs(OutlineShapes.signedArea(shape.shell()));
    double net =
        drawn
            - shape.holes().stream().mapToDouble(h -> Math.abs(OutlineShapes.signedArea(h))).sum();
    List<Outline> parts = OutlineShapes.evenOdd(rings);
    if (parts.size() == 1) {
      Polygon p = OutlineShapes.polygon(parts.get(0));
      if (Math.abs(p.getArea() - net) <= 1e-9 * drawn) {
        return Optional.of(p);
      }
    }
    // Rounding to the digits of a file can fold a corner over by its last digit.
    Polygon folded = OutlineShapes.polygon(shape);
    if (Crossings.areMany(folded)) {
      return Optional.empty();
    }
    Geometry mended = GeometryFixer.fix(folded);
    Polygon largest = null;
    for (int i = 0; i < mended.getNumGeometries(); i++) {
      if (mended.getGeometryN(i) instanceof Polygon p
          && (largest == null || p.getArea() > largest.getArea())) {
        largest = p;
      }
    }
    boolean whole = largest != null && net > 0 && largest.getArea() > 0;
    return whole && Math.abs(largest.getArea() - net) <= OutlineShapes.FOLDED * drawn
        ? Optional.of(largest)
        : Optional.empty();
  }

  private static String wrong(int error) {
    return switch (error) {
      case TopologyValidationError.HOLE_OUTSIDE_SHELL -> "has a hole outside itself";
      case TopologyValidationError.NESTED_HOLES -> "has a hole in a hole";
      case TopologyValidationError.DISCONNECTED_INTERIOR -> "is cut apart by its holes";
      case TopologyValidationError.TOO_FEW_POINTS -> "has fewer than 3 different corners";
      default -> "crosses or touches itself";
    };
  }

  private static void requireInside(
      OutlineSet set, Extent extent, Map<String, Polygon> shapes, String place) {
    double slack = OVER_BORDER * Math.max(extent.width(), extent.height());
    Envelope allowed = new Envelope(0, extent.width(), 0, extent.height());
    allowed.expandBy(slack);
    for (ClassedOutline o : set.outlines()) {
      Envelope e = shapes.get(o.id()).getEnvelopeInternal();
      if (!allowed.contains(e)) {
        boolean um = set.frame() == OutlineFrame.DIE_UM;
        throw Refused.outline(
            place,
            o.id(),
            String.format(
                Locale.ROOT,
                "reaches from %s to %s, outside the %s of %s x %s %s: move it in, or check that it"
                    + " belongs to this %s and is in %s",
                at(e.getMinX(), e.getMinY(), set.frame()),
                at(e.getMaxX(), e.getMaxY(), set.frame()),
                um ? "die" : "photograph",
                Refused.number(extent.width()),
                Refused.number(extent.height()),
                set.frame().unit(),
                um ? "die" : "photograph",
                set.frame().unit()));
      }
    }
  }

  private static void requireParents(OutlineSet set, Map<String, Polygon> shapes, String place) {
    Set<String> memories = new HashSet<>();
    for (ClassedOutline o : set.regions()) {
      if (o.dieClass() == DieClass.MEMORY_ARRAY) {
        memories.add(o.id());
      }
    }
    for (ClassedOutline o : set.outlines()) {
      Optional<String> parent = o.partOf();
      if (parent.isEmpty()) {
        continue;
      }
      if (!memories.contains(parent.get())) {
        throw Refused.outline(
            place,
            o.id(),
            "is a bit-cell array of '"
                + Refused.quoted(parent.get())
                + "', but no memory array of that id is there: name its memory or delete it");
      }
      Polygon array = shapes.get(o.id());
      if (common(array, shapes.get(parent.get())) < INSIDE_SHARE * array.getArea()) {
        throw Refused.outline(
            place,
            o.id(),
            "lies mostly outside its memory '"
                + Refused.quoted(parent.get())
                + "': move it in or delete it");
      }
    }
  }

  private static void requireApart(OutlineSet set, Map<String, Polygon> shapes, String place) {
    // Classes win over unclear area, so only regions with a class must keep apart.
    List<ClassedOutline> classed =
        set.regions().stream().filter(o -> o.dieClass() != DieClass.UNCLEAR).toList();
    STRtree tree = new STRtree();
    for (int i = 0; i < classed.size(); i++) {
      tree.insert(shapes.get(classed.get(i).id()).getEnvelopeInternal(), i);
    }
    for (int i = 0; i < classed.size(); i++) {
      Polygon a = shapes.get(classed.get(i).id());
      for (Object found : tree.query(a.getEnvelopeInternal())) {
        int j = (Integer) found;
        if (j <= i) {
          continue;
        }
        Polygon b = shapes.get(classed.get(j).id());
        double both = common(a, b);
        double share = both / Math.min(a.getArea(), b.getArea());
        if (share > COMMON_SHARE) {
          throw Refused.outline(
              place,
              classed.get(j).id(),
              String.format(
                  Locale.ROOT,
                  "overlaps '%s' by %s %s2 (%.0f %% of the smaller): move or cut one of them",
                  Refused.quoted(classed.get(i).id()),
                  Refused.number(both),
                  set.frame().unit(),
                  100 * share));
        }
      }
    }
  }

  static double common(Polygon a, Polygon b) {
    try {
      return a.intersection(b).getArea();
    } catch (TopologyException e) {
      return a.buffer(0).intersection(b.buffer(0)).getArea();
    }
  }

  private static String at(double x, double y, OutlineFrame frame) {
    return "(" + Refused.number(x) + ", " + Refused.number(y) + ") " + frame.unit();
  }
}
