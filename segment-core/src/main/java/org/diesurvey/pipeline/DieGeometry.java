package org.diesurvey.pipeline;

import java.util.ArrayList;
import java.util.List;
import org.diesurvey.preparation.PreparedDie;
import org.diesurvey.raster.PlaneMap;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.Polygon;

/**
 * Converts outlines of the upright raster into the two frames that people see: the photograph and
 * the die.
 */
final class DieGeometry {
  private final PlaneMap toPhoto;
  private final double heightPx;
  private final double umPerUprightPx;

  /**
   * @param umPerUprightPx pitch of the upright raster, um/px; NaN without a scale
   */
  DieGeometry(PreparedDie die, double umPerUprightPx) {
    this.toPhoto = die.uprightToPhoto();
    this.heightPx = die.height();
    this.umPerUprightPx = umPerUprightPx;
  }

  /** Photo frame, px rounded to a hundredth. */
  Outline inPhoto(Polygon p) {
    return outline(p, c -> new Point(round(toPhoto.x(c.x, c.y)), round(toPhoto.y(c.x, c.y))));
  }

  /** Die frame, um rounded to a hundredth: origin lower left, y up. */
  Outline inDie(Polygon p) {
    return outline(
        p, c -> new Point(round(c.x * umPerUprightPx), round((heightPx - c.y) * umPerUprightPx)));
  }

  private interface Place {
    Point of(Coordinate c);
  }

  private static Outline outline(Polygon p, Place place) {
    List<List<Point>> holes = new ArrayList<>();
    for (int i = 0; i < p.getNumInteriorRing(); i++) {
      holes.add(ring(p.getInteriorRingN(i), place));
    }
    return new Outline(ring(p.getExteriorRing(), place), holes);
  }

  private static List<Point> ring(LinearRing ring, Place place) {
    Coordinate[] c = ring.getCoordinates();
    List<Point> out = new ArrayList<>();
    int n = c.length - 1;
    for (int i = 0; i < n; i++) {
      Coordinate before = c[(i + n - 1) % n];
      Coordinate after = c[i + 1];
      boolean straight =
          before.x == c[i].x && c[i].x == after.x || before.y == c[i].y && c[i].y == after.y;
      if (!straight) {
        out.add(place.of(c[i]));
      }
    }
    return out;
  }

  private static double round(double v) {
    return Math.rint(v * 100) / 100 + 0.0;
  }
}
