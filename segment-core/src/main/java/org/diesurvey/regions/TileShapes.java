package org.diesurvey.regions;

import java.util.ArrayList;
import java.util.List;
import org.diesurvey.tiles.TileGrid;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.operation.union.UnaryUnionOp;

/** Polygons from sets of tiles: rectilinear, corners in px of the upright raster. */
final class TileShapes {
  static final GeometryFactory FACTORY = new GeometryFactory();

  private TileShapes() {}

  /** Membership of a tile. */
  interface TileSet {
    boolean contains(int row, int column);
  }

  /** The polygons of the 4-connected parts of a set within a window of tiles. */
  static List<Polygon> polygons(
      TileGrid grid, int row0, int row1, int column0, int column1, TileSet set) {
    List<Geometry> runs = new ArrayList<>();
    double s = grid.tilePx();
    for (int r = row0; r < row1; r++) {
      int c = column0;
      while (c < column1) {
        if (!set.contains(r, c)) {
          c++;
          continue;
        }
        int end = c;
        while (end < column1 && set.contains(r, end)) {
          end++;
        }
        double right = Math.min(grid.width(), end * s);
        double bottom = Math.min(grid.height(), (r + 1) * s);
        runs.add(rectangle(c * s, r * s, right, bottom));
        c = end;
      }
    }
    return parts(runs.isEmpty() ? FACTORY.createPolygon() : UnaryUnionOp.union(runs));
  }

  static Polygon rectangle(double x0, double y0, double x1, double y1) {
    return FACTORY.createPolygon(
        new Coordinate[] {
          new Coordinate(x0, y0),
          new Coordinate(x1, y0),
          new Coordinate(x1, y1),
          new Coordinate(x0, y1),
          new Coordinate(x0, y0)
        });
  }

  /** The polygons in a geometry, largest first; lines and points are left out. */
  static List<Polygon> parts(Geometry g) {
    List<Polygon> out = new ArrayList<>();
    for (int i = 0; i < g.getNumGeometries(); i++) {
      if (g.getGeometryN(i) instanceof Polygon p && !p.isEmpty() && p.getArea() > 0) {
        out.add(p);
      }
    }
    out.sort((a, b) -> Double.compare(b.getArea(), a.getArea()));
    return out;
  }

  /** The polygons of a geometry as one geometry that further overlays accept. */
  static Geometry areas(Geometry g) {
    return FACTORY.createMultiPolygon(parts(g).toArray(new Polygon[0]));
  }
}
