package org.diesurvey.pipeline;

import java.util.ArrayList;
import java.util.List;
import org.diesurvey.raster.PixelPoint;
import org.diesurvey.regions.DieRegion;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Polygon;

/**
 * Cuts regions at the photograph's frame: the upright rectangle around a turned die that the
 * photograph cuts has corners that nobody sees.
 */
final class VisibleRegions {
  /** Parts smaller than this are dropped, px of the upright raster. */
  private static final double LEAST_PX = 4;

  private VisibleRegions() {}

  /**
   * @param shown corners of what the photograph shows, px of the upright raster; none for all of it
   */
  static List<DieRegion> of(List<DieRegion> regions, List<PixelPoint> shown) {
    if (shown.isEmpty()) {
      return regions;
    }
    Coordinate[] ring = new Coordinate[shown.size() + 1];
    for (int i = 0; i < ring.length; i++) {
      PixelPoint p = shown.get(i % shown.size());
      ring[i] = new Coordinate(p.x(), p.y());
    }
    Geometry visible = new GeometryFactory().createPolygon(ring);
    List<DieRegion> out = new ArrayList<>();
    for (DieRegion r : regions) {
      if (visible.covers(r.outline())) {
        out.add(r);
        continue;
      }
      for (Polygon part : polygons(r.outline().intersection(visible))) {
        out.add(
            new DieRegion(
                r.dieClass(),
                r.reason(),
                part,
                r.arrays().stream().flatMap(a -> polygons(a.intersection(part)).stream()).toList(),
                r.probabilities(),
                r.confidence(),
                r.tiles(),
                r.bondPads()));
      }
    }
    return out;
  }

  private static List<Polygon> polygons(Geometry g) {
    List<Polygon> out = new ArrayList<>();
    for (int i = 0; i < g.getNumGeometries(); i++) {
      if (g.getGeometryN(i) instanceof Polygon p && p.getArea() > LEAST_PX) {
        out.add(p);
      }
    }
    return out;
  }
}
