package org.diesurvey.report.picture;

import java.util.ArrayList;
import java.util.List;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;
import org.locationtech.jts.algorithm.construct.MaximumInscribedCircle;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LinearRing;

/**
 * Where the label of a region goes: the centre of the largest circle inside it.
 *
 * @param x px
 * @param y px
 * @param radius px; how much room there is
 */
record LabelSpot(double x, double y, double radius) {
  private static final GeometryFactory FACTORY = new GeometryFactory();

  static LabelSpot in(Outline outline) {
    double minX = outline.shell().stream().mapToDouble(Point::x).min().getAsDouble();
    double maxX = outline.shell().stream().mapToDouble(Point::x).max().getAsDouble();
    double minY = outline.shell().stream().mapToDouble(Point::y).min().getAsDouble();
    double maxY = outline.shell().stream().mapToDouble(Point::y).max().getAsDouble();
    double side = Math.min(maxX - minX, maxY - minY);
    if (side > 0) {
      try {
        LinearRing[] holes =
            outline.holes().stream().map(LabelSpot::ring).toArray(LinearRing[]::new);
        MaximumInscribedCircle circle =
            new MaximumInscribedCircle(
                FACTORY.createPolygon(ring(outline.shell()), holes), Math.max(1, side / 100));
        return new LabelSpot(
            circle.getCenter().getX(),
            circle.getCenter().getY(),
            circle.getRadiusLine().getLength());
      } catch (RuntimeException e) {
        // An outline that crosses itself has no inside in the strict sense: the middle must do.
      }
    }
    return new LabelSpot((minX + maxX) / 2, (minY + maxY) / 2, side / 2);
  }

  private static LinearRing ring(List<Point> corners) {
    List<Coordinate> all = new ArrayList<>();
    corners.forEach(p -> all.add(new Coordinate(p.x(), p.y())));
    all.add(all.get(0).copy());
    return FACTORY.createLinearRing(all.toArray(new Coordinate[0]));
  }
}
