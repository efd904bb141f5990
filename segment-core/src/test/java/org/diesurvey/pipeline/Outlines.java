package org.diesurvey.pipeline;

import java.util.List;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.Polygon;

/** Outlines of a document as polygons of the geometry library. */
public final class Outlines {
  private static final GeometryFactory FACTORY = new GeometryFactory();

  private Outlines() {}

  /** An upright rectangle. */
  static Polygon rectangle(double x, double y, double width, double height) {
    return polygon(
        new Outline(
            List.of(
                new Point(x, y),
                new Point(x + width, y),
                new Point(x + width, y + height),
                new Point(x, y + height)),
            List.of()));
  }

  static Polygon polygon(Outline o) {
    LinearRing[] holes = o.holes().stream().map(Outlines::ring).toArray(LinearRing[]::new);
    return FACTORY.createPolygon(ring(o.shell()), holes);
  }

  private static LinearRing ring(List<Point> points) {
    Coordinate[] c = new Coordinate[points.size() + 1];
    for (int i = 0; i < c.length; i++) {
      Point p = points.get(i % points.size());
      c[i] = new Coordinate(p.x(), p.y());
    }
    return FACTORY.createLinearRing(c);
  }
}
