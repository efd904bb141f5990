package org.diesurvey.interchange;

import java.util.ArrayList;
import java.util.List;
import org.locationtech.jts.algorithm.LineIntersector;
import org.locationtech.jts.algorithm.RobustLineIntersector;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.noding.MCIndexNoder;
import org.locationtech.jts.noding.NodedSegmentString;
import org.locationtech.jts.noding.SegmentIntersector;
import org.locationtech.jts.noding.SegmentString;

/**
 * Whether the sides of rings cross so often that no rounding can have done it. Mending such rings
 * would cost time and memory with the square of their corners.
 */
final class Crossings implements SegmentIntersector {
  /** Rounding folds a corner here and there; more crossings than this are drawn (own choice). */
  private static final int MOST = 200;

  private final LineIntersector lines = new RobustLineIntersector();
  private int found;

  private Crossings() {}

  /** True as soon as more sides cross than rounding explains. */
  static boolean areMany(Polygon p) {
    List<SegmentString> rings = new ArrayList<>();
    rings.add(ring(p.getExteriorRing().getCoordinates()));
    for (int i = 0; i < p.getNumInteriorRing(); i++) {
      rings.add(ring(p.getInteriorRingN(i).getCoordinates()));
    }
    Crossings counted = new Crossings();
    new MCIndexNoder(counted).computeNodes(rings);
    return counted.isDone();
  }

  private static SegmentString ring(Coordinate[] corners) {
    return new NodedSegmentString(corners, null);
  }

  @Override
  public void processIntersections(SegmentString a, int i, SegmentString b, int j) {
    if (isDone() || a == b && i == j) {
      return;
    }
    lines.computeIntersection(
        a.getCoordinate(i), a.getCoordinate(i + 1), b.getCoordinate(j), b.getCoordinate(j + 1));
    if (lines.isProper()) {
      found++;
    }
  }

  @Override
  public boolean isDone() {
    return found > MOST;
  }
}
