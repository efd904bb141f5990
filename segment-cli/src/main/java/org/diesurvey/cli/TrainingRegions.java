package org.diesurvey.cli;

import java.util.ArrayList;
import java.util.List;
import org.diesurvey.classification.DieClass;
import org.diesurvey.classification.RegionConfidence;
import org.diesurvey.classification.TileClassifier;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.pipeline.OnDie;
import org.diesurvey.pipeline.TiledDie;
import org.diesurvey.raster.PlaneMap;
import org.diesurvey.regions.DieRegion;
import org.diesurvey.regions.RegionMap;
import org.diesurvey.synthetic.DrawnDie;
import org.diesurvey.synthetic.SurfaceLabel;
import org.diesurvey.tiles.TileGrid;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.prep.PreparedGeometry;
import org.locationtech.jts.geom.prep.PreparedGeometryFactory;

/** Regions that a model finds on a drawn die, each with whether its class is right. */
final class TrainingRegions {
  private TrainingRegions() {}

  /** Surveys a drawn die and compares; runs on the calling thread's fork-join pool. */
  static List<RegionConfidence.Outcome> judge(DrawnDie drawn, TileClassifier classifier) {
    TiledDie ready = TrainingDies.prepare(drawn);
    FeatureTable features = FeatureTable.extract(ready.die(), ready.grid());
    List<DieRegion> regions =
        RegionMap.of(
            classifier.classify(features, ready.die().frame().realEdges()),
            features,
            classifier.regionConfidence(),
            OnDie.tiles(ready.die(), ready.grid()),
            ready.die().frame().realEdges());
    List<RegionConfidence.Outcome> out = new ArrayList<>();
    for (DieRegion r : regions) {
      DieClass truth = mostly(drawn, ready.die().uprightToPhoto(), ready.grid(), r);
      if (r.dieClass() != DieClass.UNCLEAR && truth != DieClass.UNCLEAR) {
        double mean = r.probabilities().getOrDefault(r.dieClass(), 0.0);
        out.add(new RegionConfidence.Outcome(r.dieClass(), mean, r.tiles(), truth == r.dieClass()));
      }
    }
    return out;
  }

  /** The class of most of a region's tile middles; unclear where none of them shows a class. */
  private static DieClass mostly(
      DrawnDie drawn, PlaneMap toPhoto, TileGrid grid, DieRegion region) {
    PreparedGeometry inside = PreparedGeometryFactory.prepare(region.outline());
    Envelope box = region.outline().getEnvelopeInternal();
    int[] count = new int[DieClass.PAD_RING.code() + 1];
    double s = grid.tilePx();
    for (double y = (Math.floor(box.getMinY() / s) + 0.5) * s; y < box.getMaxY(); y += s) {
      for (double x = (Math.floor(box.getMinX() / s) + 0.5) * s; x < box.getMaxX(); x += s) {
        int px = (int) Math.floor(toPhoto.x(x, y));
        int py = (int) Math.floor(toPhoto.y(x, y));
        boolean inPhoto = px >= 0 && py >= 0 && px < drawn.widthPx() && py < drawn.heightPx();
        Coordinate place = new Coordinate(x, y);
        if (inPhoto && inside.contains(region.outline().getFactory().createPoint(place))) {
          count[code(drawn.surface()[py * drawn.widthPx() + px])]++;
        }
      }
    }
    int best = 0;
    for (int c = 1; c < count.length; c++) {
      if (count[c] > 0 && (best == 0 || count[c] > count[best])) {
        best = c;
      }
    }
    return best == 0 ? DieClass.UNCLEAR : DieClass.ofCode(best);
  }

  /** Code of the survey class of a surface; 0 for what belongs to none. */
  private static int code(byte surface) {
    return switch (surface) {
      case SurfaceLabel.MEMORY_ARRAY, SurfaceLabel.MEMORY_PERIPHERY -> DieClass.MEMORY_ARRAY.code();
      case SurfaceLabel.HARD_MACRO -> DieClass.HARD_MACRO.code();
      case SurfaceLabel.LOGIC -> DieClass.LOGIC.code();
      case SurfaceLabel.PAD_RING -> DieClass.PAD_RING.code();
      default -> 0;
    };
  }
}
