package org.diesurvey.interchange;

import java.util.ArrayList;
import java.util.List;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.Polygon;

/** Outlines as geometries of the JTS library and back. */
public final class OutlineShapes {
  /** Most rings of one outline; the work grows with their square. */
  private static final int MOST_RINGS = 2000;

  private static final GeometryFactory FACTORY = new GeometryFactory();

  /**
   * Rings that touch leave slivers where their corners are rounded to 0.01; mean width, px or um.
   */
  private static final double SLIVER = 0.03;

  /** Share of the area that rounding to the digits of a file may fold over. */
  static final double FOLDED = 1e-4;

  private OutlineShapes() {}

  /** The polygon of an outline; it may be invalid if the outline is. */
  public static Polygon polygon(Outline outline) {
    return FACTORY.createPolygon(
        ring(outline.shell()),
        outline.holes().stream().map(OutlineShapes::ring).toArray(LinearRing[]::new));
  }

  /** The valid polygons of an outline whose holes may touch it; none if it crosses itself. */
  public static List<Polygon> polygons(Outline outline) {
    Polygon p = polygon(outline);
    if (p.isValid()) {
      return List.of(p);
    }
    List<List<Point>> rings = new ArrayList<>(outline.holes());
    rings.add(outline.shell());
    return evenOdd(rings).stream().map(OutlineShapes::polygon).toList();
  }

  static LinearRing ring(List<Point> corners) {
    Coordinate[] c = new Coordinate[corners.size() + 1];
    for (int i = 0; i < corners.size(); i++) {
      c[i] = new Coordinate(corners.get(i).x(), corners.get(i).y());
    }
    c[corners.size()] = c[0].copy();
    return FACTORY.createLinearRing(c);
  }

  /** The outlines of all polygons of a geometry, corners on straight edges left out. */
  public static List<Outline> outlines(Geometry g) {
    List<Outline> all = new ArrayList<>();
    for (int i = 0; i < g.getNumGeometries(); i++) {
      if (g.getGeometryN(i) instanceof Polygon p && !p.isEmpty()) {
        all.add(outline(p));
      }
    }
    return all;
  }

  /** The outline of a polygon. */
  public static Outline outline(Polygon p) {
    List<List<Point>> holes = new ArrayList<>();
    for (int i = 0; i < p.getNumInteriorRing(); i++) {
      holes.add(corners(p.getInteriorRingN(i)));
    }
    return new Outline(corners(p.getExteriorRing()), holes);
  }

  private static List<Point> corners(LinearRing ring) {
    Coordinate[] c = ring.getCoordinates();
    int n = c.length - 1;
    List<Point> out = new ArrayList<>(n);
    for (int i = 0; i < n; i++) {
      Coordinate before = c[(i + n - 1) % n];
      Coordinate after = c[i + 1];
      double cross =
          (c[i].x - before.x) * (after.y - c[i].y) - (c[i].y - before.y) * (after.x - c[i].x);
      if (cross != 0) {
        out.add(new Point(c[i].x, c[i].y));
      }
    }
    return out.size() < 3
        ? java.util.Arrays.stream(c, 0, n).map(p -> new Point(p.x, p.y)).toList()
        : out;
  }

  /** Area enclosed by a ring by the shoelace formula, positive if counter-clockwise with y up. */
  public static double signedArea(List<Point> ring) {
    double twice = 0;
    Point o = ring.get(0);
    for (int i = 1; i + 1 < ring.size(); i++) {
      Point p = ring.get(i);
      Point q = ring.get(i + 1);
      twice += (p.x() - o.x()) * (q.y() - o.y()) - (q.x() - o.x()) * (p.y() - o.y());
    }
    return twice / 2;
  }

  /**
   * The areas that rings enclose together by the even-odd rule, as formats without a notion of
   * holes have it: each part with the holes in it, without slivers. Empty where a ring crosses
   * itself.
   */
  public static List<Outline> evenOdd(List<List<Point>> rings) {
    if (rings.size() > MOST_RINGS) {
      return List.of();
    }
    Geometry all = FACTORY.createPolygon();
    for (List<Point> corners : rings) {
      Polygon p = FACTORY.createPolygon(ring(corners));
      boolean valid = p.isValid();
      if (!valid && Crossings.areMany(p)) {
        return List.of();
      }
      Geometry clean = valid ? p : p.buffer(0);
      double drawn = Math.abs(signedArea(corners));
      // A ring that touches itself keeps its area, but for folds of its last digit; one that
      // crosses
      // itself does not.
      if (Math.abs(clean.getArea() - drawn) > FOLDED * drawn) {
        return List.of();
      }
      all = all.symDifference(clean);
    }
    List<Polygon> parts = new ArrayList<>();
    for (int i = 0; i < all.getNumGeometries(); i++) {
      if (all.getGeometryN(i) instanceof Polygon p && 2 * p.getArea() > SLIVER * p.getLength()) {
        parts.add(p);
      }
    }
    return parts.stream().map(OutlineShapes::outline).toList();
  }

  /** Without corners that repeat the one before, or the last repeating the first. */
  public static List<Point> distinct(List<Point> ring) {
    List<Point> out = new ArrayList<>(ring.size());
    for (Point p : ring) {
      if (out.isEmpty() || !out.get(out.size() - 1).equals(p)) {
        out.add(p);
      }
    }
    while (out.size() > 1 && out.get(0).equals(out.get(out.size() - 1))) {
      out.remove(out.size() - 1);
    }
    return out;
  }
}
