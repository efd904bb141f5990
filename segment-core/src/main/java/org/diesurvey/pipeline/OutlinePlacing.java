package org.diesurvey.pipeline;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.preparation.PreparedDie;
import org.diesurvey.raster.PlaneMap;
import org.diesurvey.regions.DieRegion;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.Polygon;

/** Lays outlines of a file onto the upright die, and refuses what cannot lie there. */
final class OutlinePlacing {
  /** How far an outline may reach over the die's edge, um: hands are no finer. */
  private static final double OVER_EDGE_UM = 15;

  /** Neighbours drawn by hand may overlap by this share of the smaller one. */
  private static final double OVERLAP_SHARE = 0.01;

  private static final GeometryFactory FACTORY = new GeometryFactory();

  private final HandOutlines file;
  private final PreparedDie die;
  private final double umPerUprightPx;
  private final PlaneMap fromPhoto;

  /**
   * @param umPerUprightPx pitch of the upright raster; a guess where there is no scale
   */
  OutlinePlacing(HandOutlines file, PreparedDie die, double umPerUprightPx) {
    this.file = file;
    this.die = die;
    this.umPerUprightPx = umPerUprightPx;
    this.fromPhoto = die.uprightToPhoto().inverse();
  }

  /**
   * The regions in the order of the file.
   *
   * @throws DieInputException OUTLINES_INVALID
   */
  List<DieRegion> regions() {
    List<DieRegion> all = new ArrayList<>();
    for (HandOutline h : file.regions()) {
      Polygon outline = polygon(h.id(), h.outline());
      List<Polygon> arrays = new ArrayList<>();
      for (Outline a : h.arrays()) {
        Polygon array = polygon("a bit-cell array of " + h.id(), a);
        if (array.difference(outline).getArea() > OVERLAP_SHARE * array.getArea()) {
          throw refused(
              "a bit-cell array of \"" + h.id() + "\" reaches out of it", "draw it inside");
        }
        arrays.add(array);
      }
      apart(arrays, "bit-cell arrays of \"" + h.id() + "\"");
      all.add(
          new DieRegion(
              h.dieClass(),
              h.reason(),
              outline,
              arrays,
              h.reason().isPresent() ? Map.of() : Map.of(h.dieClass(), 1.0),
              1,
              0,
              OptionalInt.empty()));
    }
    for (int i = 0; i < all.size(); i++) {
      for (int k = 0; k < i; k++) {
        if (overlap(all.get(i).outline(), all.get(k).outline())) {
          throw refused(
              "\""
                  + file.regions().get(k).id()
                  + "\" and \""
                  + file.regions().get(i).id()
                  + "\" overlap",
              "cut the one out of the other, as a hole where it lies inside");
        }
      }
    }
    return all;
  }

  private void apart(List<Polygon> polygons, String what) {
    for (int i = 0; i < polygons.size(); i++) {
      for (int k = 0; k < i; k++) {
        if (overlap(polygons.get(i), polygons.get(k))) {
          throw refused(what + " overlap", "draw them apart");
        }
      }
    }
  }

  private static boolean overlap(Polygon a, Polygon b) {
    return a.getEnvelopeInternal().intersects(b.getEnvelopeInternal())
        && a.intersection(b).getArea() > OVERLAP_SHARE * Math.min(a.getArea(), b.getArea());
  }

  private Polygon polygon(String id, Outline outline) {
    LinearRing[] holes = outline.holes().stream().map(this::ring).toArray(LinearRing[]::new);
    Polygon p = FACTORY.createPolygon(ring(outline.shell()), holes);
    if (!p.isValid() || p.getArea() <= 0) {
      throw refused(
          "the outline of \"" + id + "\" crosses or touches itself, or its holes leave it",
          "draw it as a simple ring");
    }
    double room = OVER_EDGE_UM / umPerUprightPx;
    Geometry frame =
        FACTORY.toGeometry(
            new org.locationtech.jts.geom.Envelope(
                -room, die.width() + room, -room, die.height() + room));
    if (!frame.covers(p)) {
      throw refused(
          "the outline of \""
              + id
              + "\" reaches out of the "
              + (die.edgeFound() ? "die found in the photograph" : "photograph"),
          "check that the outlines, their unit and the photograph belong together");
    }
    return p;
  }

  private LinearRing ring(List<Point> corners) {
    Coordinate[] c = new Coordinate[corners.size() + 1];
    for (int i = 0; i < corners.size(); i++) {
      c[i] = place(corners.get(i));
    }
    c[corners.size()] = c[0];
    return FACTORY.createLinearRing(c);
  }

  private Coordinate place(Point p) {
    return file.inUm()
        ? new Coordinate(p.x() / umPerUprightPx, die.height() - p.y() / umPerUprightPx)
        : new Coordinate(fromPhoto.x(p.x(), p.y()), fromPhoto.y(p.x(), p.y()));
  }

  private DieInputException refused(String why, String remedy) {
    return new DieInputException(
        Reason.OUTLINES_INVALID,
        file.fileName() + ": these outlines cannot be used: " + why + "; " + remedy + ".");
  }
}
