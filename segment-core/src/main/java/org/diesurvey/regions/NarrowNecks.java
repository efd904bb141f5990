package org.diesurvey.regions;

import java.util.ArrayList;
import java.util.List;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.CoordinateSequence;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.geom.PrecisionModel;
import org.locationtech.jts.precision.GeometryPrecisionReducer;

/**
 * Parts a region at necks and slits so narrow that its outline would touch itself as it is written,
 * to hundredths of a pixel: whoever read it would find more regions, or none.
 */
public final class NarrowNecks {
  /** Grid on which an outline must stay whole, px: coarser than what is written, turned or not. */
  private static final double GRID_PX = 1 / 16.0;

  private static final PrecisionModel GRID = new PrecisionModel(1 / GRID_PX);

  private NarrowNecks() {}

  /**
   * Parts the regions that need it.
   *
   * @param regions without overlaps
   * @param least area of a part that is kept, px2
   * @return the same, those that had narrow necks in parts, in their place
   */
  public static List<DieRegion> parted(List<DieRegion> regions, double least) {
    List<DieRegion> out = new ArrayList<>();
    for (DieRegion r : regions) {
      if (onGrid(r.outline()).isValid()) {
        out.add(r);
        continue;
      }
      Geometry whole = GeometryPrecisionReducer.reduce(r.outline(), GRID);
      for (Polygon part : TileShapes.parts(whole)) {
        if (part.getArea() >= least) {
          out.add(r.within(part));
        }
      }
    }
    return out;
  }

  /** The outline with each corner at the nearest point of the grid, whatever comes of it. */
  private static Polygon onGrid(Polygon p) {
    Polygon copy = (Polygon) p.copy();
    copy.apply(
        new org.locationtech.jts.geom.CoordinateSequenceFilter() {
          @Override
          public void filter(CoordinateSequence seq, int i) {
            Coordinate c = seq.getCoordinate(i);
            GRID.makePrecise(c);
            seq.setOrdinate(i, 0, c.x);
            seq.setOrdinate(i, 1, c.y);
          }

          @Override
          public boolean isDone() {
            return false;
          }

          @Override
          public boolean isGeometryChanged() {
            return true;
          }
        });
    return copy;
  }
}
