package org.diesurvey.scoring;

import java.util.ArrayList;
import java.util.List;
import org.diesurvey.classification.DieClass;
import org.diesurvey.survey.Point;

/**
 * Points on the true edges of a class.
 *
 * <p>Where the truth gives outlines of the class, the points lie on them, at most 1 px apart: an
 * outline is the block's own edge, whereas label maps leave unscored strips beside it. Where it
 * gives none, the points are the pixel corners on the border of the class in the label map,
 * whatever lies on the other side. Points within 1 px of the photograph's frame are left out.
 */
final class TrueEdges {
  private TrueEdges() {}

  static List<Point> of(Truth truth, DieClass dieClass) {
    List<Point> points = new ArrayList<>();
    boolean outlined = false;
    for (TruthOutline t : truth.outlines()) {
      if (t.dieClass() == dieClass) {
        outlined = true;
        List<List<Point>> holes = t.outlinePx().holes();
        if (dieClass != DieClass.PAD_RING || holes.isEmpty()) {
          addRing(t.outlinePx().shell(), points);
        }
        holes.forEach(h -> addRing(h, points));
      }
    }
    if (!outlined) {
      points.addAll(EdgeGrid.points(truth.labels(), dieClass.code()));
    }
    double right = truth.labels().width() - 1.0;
    double bottom = truth.labels().height() - 1.0;
    points.removeIf(p -> p.x() < 1 || p.y() < 1 || p.x() > right || p.y() > bottom);
    return points;
  }

  private static void addRing(List<Point> ring, List<Point> points) {
    for (int i = 0; i < ring.size(); i++) {
      Point a = ring.get(i);
      Point b = ring.get((i + 1) % ring.size());
      int pieces = (int) Math.ceil(Math.hypot(b.x() - a.x(), b.y() - a.y()));
      for (int k = 0; k < pieces; k++) {
        double t = (k + 0.5) / pieces;
        points.add(new Point(a.x() + t * (b.x() - a.x()), a.y() + t * (b.y() - a.y())));
      }
    }
  }
}
