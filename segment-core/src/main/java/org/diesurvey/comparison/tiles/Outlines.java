package org.diesurvey.comparison.tiles;

import java.util.ArrayList;
import java.util.List;
import org.diesurvey.raster.PlaneTransform;
import org.diesurvey.survey.DieFrame;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;
import org.diesurvey.survey.RegionShape;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyRegion;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.operation.union.UnaryUnionOp;

/** Outlines between surveys, tiles and documents. */
public final class Outlines {
  private static final GeometryFactory FACTORY = new GeometryFactory();

  private Outlines() {}

  /** In the survey's own die frame, y up: um, or px of the upright die where it has no scale. */
  static Outline own(Survey survey, SurveyRegion r) {
    return r.inDie()
        .map(RegionShape::outline)
        .orElseGet(() -> upright(survey.die(), r.inPhoto().outline()));
  }

  private static Outline upright(DieFrame die, Outline px) {
    Point o = die.outlinePx().get(0);
    double a = Math.toRadians(die.rotationDeg());
    double cos = Math.cos(a);
    double sin = Math.sin(a);
    PlaneTransform t =
        new PlaneTransform(
            cos, sin, -cos * o.x() - sin * o.y(), sin, -cos, -sin * o.x() + cos * o.y());
    return mapped(px, t);
  }

  static Outline mapped(Outline in, PlaneTransform t) {
    return new Outline(ring(in.shell(), t), in.holes().stream().map(h -> ring(h, t)).toList());
  }

  private static List<Point> ring(List<Point> in, PlaneTransform t) {
    return in.stream()
        .map(p -> new Point(round(t.x(p.x(), p.y())), round(t.y(p.x(), p.y()))))
        .toList();
  }

  private static double round(double v) {
    return Math.rint(v * 100) / 100 + 0.0;
  }

  static Polygon polygon(Outline in, PlaneTransform t) {
    return FACTORY.createPolygon(
        linear(in.shell(), t),
        in.holes().stream().map(h -> linear(h, t)).toArray(LinearRing[]::new));
  }

  private static LinearRing linear(List<Point> ring, PlaneTransform t) {
    Coordinate[] c = new Coordinate[ring.size() + 1];
    for (int i = 0; i < c.length; i++) {
      Point p = ring.get(i % ring.size());
      c[i] = new Coordinate(t.x(p.x(), p.y()), t.y(p.x(), p.y()));
    }
    return FACTORY.createLinearRing(c);
  }

  /**
   * Outlines of tiles: their bounding box where they fill most of it, since blocks are rectangles.
   *
   * @param fromGrid from tiles (column, row) to the document's frame
   */
  public static List<Outline> of(TileSet tiles, PlaneTransform fromGrid) {
    if (tiles.fill() >= 0.7) {
      return List.of(box(tiles.left(), tiles.top(), tiles.right(), tiles.bottom(), fromGrid));
    }
    List<Geometry> runs = new ArrayList<>();
    for (int r = tiles.top(); r < tiles.bottom(); r++) {
      int from = -1;
      for (int c = tiles.left(); c <= tiles.right(); c++) {
        boolean in = c < tiles.right() && tiles.has(c, r);
        if (in && from < 0) {
          from = c;
        } else if (!in && from >= 0) {
          runs.add(polygon(box(from, r, c, r + 1, PlaneTransform.IDENTITY), fromGrid));
          from = -1;
        }
      }
    }
    Geometry all = UnaryUnionOp.union(runs);
    List<Outline> out = new ArrayList<>();
    for (int i = 0; i < all.getNumGeometries(); i++) {
      if (all.getGeometryN(i) instanceof Polygon p && p.getArea() > 0) {
        List<List<Point>> holes = new ArrayList<>();
        for (int k = 0; k < p.getNumInteriorRing(); k++) {
          holes.add(points(p.getInteriorRingN(k)));
        }
        out.add(new Outline(points(p.getExteriorRing()), holes));
      }
    }
    return out;
  }

  private static List<Point> points(LinearRing ring) {
    Coordinate[] c = ring.getCoordinates();
    List<Point> out = new ArrayList<>();
    int n = c.length - 1;
    for (int i = 0; i < n; i++) {
      Coordinate before = c[(i + n - 1) % n];
      Coordinate after = c[i + 1];
      double cross =
          (c[i].x - before.x) * (after.y - c[i].y) - (c[i].y - before.y) * (after.x - c[i].x);
      if (Math.abs(cross) > 1e-6) {
        out.add(new Point(round(c[i].x), round(c[i].y)));
      }
    }
    return out;
  }

  static Outline box(double left, double top, double right, double bottom, PlaneTransform t) {
    List<Point> corners =
        List.of(
            new Point(left, bottom),
            new Point(right, bottom),
            new Point(right, top),
            new Point(left, top));
    return mapped(new Outline(corners, List.of()), t);
  }
}
