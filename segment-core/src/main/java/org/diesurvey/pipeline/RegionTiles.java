package org.diesurvey.pipeline;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.diesurvey.classification.DieClass;
import org.diesurvey.classification.UnclearReason;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.regions.DieRegion;
import org.diesurvey.tiles.TileGrid;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.geom.prep.PreparedGeometryFactory;

/** The tiles of regions, and what their pattern is worth. */
final class RegionTiles {
  /** Confidence of a region whose lattice turned out to be the mosaic's, at most. */
  private static final double NO_EVIDENCE = 0.2;

  private RegionTiles() {}

  /** Numbers of the tiles whose middle lies in a polygon. */
  static int[] in(List<Polygon> polygons, TileGrid grid) {
    List<Integer> out = new ArrayList<>();
    for (Polygon p : polygons) {
      var prepared = PreparedGeometryFactory.prepare(p);
      var box = p.getEnvelopeInternal();
      int r0 = (int) (box.getMinY() / grid.tilePx());
      int r1 = Math.min(grid.rows() - 1, (int) (box.getMaxY() / grid.tilePx()));
      int c0 = (int) (box.getMinX() / grid.tilePx());
      int c1 = Math.min(grid.columns() - 1, (int) (box.getMaxX() / grid.tilePx()));
      for (int r = r0; r <= r1; r++) {
        for (int c = c0; c <= c1; c++) {
          Coordinate middle = new Coordinate((c + 0.5) * grid.tilePx(), (r + 0.5) * grid.tilePx());
          if (prepared.contains(p.getFactory().createPoint(middle))) {
            out.add(r * grid.columns() + c);
          }
        }
      }
    }
    return out.stream().mapToInt(Integer::intValue).toArray();
  }

  /**
   * Memories whose only lattice is the mosaic that the photograph was stitched from are undecided.
   */
  static List<DieRegion> withoutMosaics(
      List<DieRegion> regions, FeatureTable features, TileGrid grid) {
    return regions.stream()
        .map(
            r ->
                r.dieClass() == DieClass.MEMORY_ARRAY
                        && features.periodOfTheMosaic(in(List.of(r.outline()), grid))
                    ? undecided(r)
                    : r)
        .toList();
  }

  private static DieRegion undecided(DieRegion r) {
    return new DieRegion(
        DieClass.UNCLEAR,
        Optional.of(UnclearReason.UNDECIDED),
        r.outline(),
        List.of(),
        r.probabilities(),
        Math.min(NO_EVIDENCE, r.confidence()),
        r.tiles(),
        Optional.empty());
  }
}
