package org.diesurvey.report;

import java.util.List;
import org.diesurvey.survey.Point;

/** Plane geometry of rings. */
final class Rings {
  private Rings() {}

  /** Area by the shoelace formula, positive if the ring runs counter-clockwise with y up. */
  static double signedArea(List<Point> ring) {
    double twice = 0;
    for (int i = 0; i < ring.size(); i++) {
      Point p = ring.get(i);
      Point q = ring.get((i + 1) % ring.size());
      twice += p.x() * q.y() - q.x() * p.y();
    }
    return twice / 2;
  }
}
