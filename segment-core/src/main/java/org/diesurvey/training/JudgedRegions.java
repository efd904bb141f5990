package org.diesurvey.training;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.diesurvey.classification.DieClass;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.model.RegionConfidence;
import org.diesurvey.classification.model.TileClassifier;
import org.diesurvey.pipeline.RegionChain;
import org.diesurvey.regions.DieRegion;
import org.diesurvey.regions.RegionTuning;
import org.diesurvey.tiles.TileGrid;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.prep.PreparedGeometry;
import org.locationtech.jts.geom.prep.PreparedGeometryFactory;

/**
 * Regions that a model finds on a die whose truth is known, each with whether its class is right.
 */
final class JudgedRegions {
  private JudgedRegions() {}

  /** Share of a tile from which its class counts as what the place is. */
  private static final double MOSTLY = 0.5;

  /** Forms the regions and compares; runs on the calling thread's fork-join pool. */
  static List<RegionConfidence.Outcome> of(LabelledTiles die, TileClassifier classifier) {
    List<DieRegion> regions =
        RegionChain.of(
            classifier.classify(die.features(), die.sides()),
            die.features(),
            classifier,
            die.shown(),
            RegionTuning.DEFAULT);
    int[] classes = die.classes(MOSTLY);
    List<RegionConfidence.Outcome> out = new ArrayList<>();
    for (DieRegion r : regions) {
      DieClass truth = mostly(classes, die.features().grid(), r);
      if (r.dieClass() != DieClass.UNCLEAR && truth != DieClass.OFF_DIE) {
        double mean = r.probabilities().getOrDefault(r.dieClass(), 0.0);
        out.add(new RegionConfidence.Outcome(r.dieClass(), mean, r.tiles(), truth == r.dieClass()));
      }
    }
    return out;
  }

  /**
   * The class of most of a region's tiles, unclear where that is bare ground; off the die where
   * none of them shows a class.
   */
  private static DieClass mostly(int[] classes, TileGrid grid, DieRegion region) {
    PreparedGeometry inside = PreparedGeometryFactory.prepare(region.outline());
    Envelope box = region.outline().getEnvelopeInternal();
    Map<DieClass, Integer> count = new EnumMap<>(DieClass.class);
    double s = grid.tilePx();
    for (double y = (Math.floor(box.getMinY() / s) + 0.5) * s; y < box.getMaxY(); y += s) {
      for (double x = (Math.floor(box.getMinX() / s) + 0.5) * s; x < box.getMaxX(); x += s) {
        int column = Math.max(0, Math.min(grid.columns() - 1, (int) (x / s)));
        int row = Math.max(0, Math.min(grid.rows() - 1, (int) (y / s)));
        int surface = classes[row * grid.columns() + column];
        Coordinate place = new Coordinate(x, y);
        if (surface >= 0 && inside.contains(region.outline().getFactory().createPoint(place))) {
          count.merge(SurfaceClass.values()[surface].dieClass(), 1, Integer::sum);
        }
      }
    }
    return count.entrySet().stream()
        .max(Map.Entry.comparingByValue())
        .map(Map.Entry::getKey)
        .orElse(DieClass.OFF_DIE);
  }
}
