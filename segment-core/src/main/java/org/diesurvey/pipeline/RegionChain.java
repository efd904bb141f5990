package org.diesurvey.pipeline;

import java.util.List;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.classification.model.TileClassifier;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.regions.DamagedPlaces;
import org.diesurvey.regions.DieRegion;
import org.diesurvey.regions.NarrowNecks;
import org.diesurvey.regions.RegionBuilder;
import org.diesurvey.regions.RegionTuning;

/** All steps from the evidence of tiles to regions, the same in a survey and in a training. */
public final class RegionChain {
  /** Smaller parts beside a neck are dropped, px2. */
  private static final double LEAST_PX2 = 4;

  private RegionChain() {}

  /**
   * Forms the regions: blocks and ring, without lattices of the mosaic, hidden places and what the
   * photograph does not show.
   *
   * @param tiles evidence of the tiles
   * @param features of the same tiles; a table that was kept knows no periods, so that none of them
   *     is taken for the mosaic's
   * @param classifier that gave it; it judges the blocks that the tiles form, too
   * @param shown of the die in the photograph
   * @return regions without overlaps, in the order of {@link RegionBuilder}
   */
  public static List<DieRegion> of(
      TileProbabilities tiles,
      FeatureTable features,
      TileClassifier classifier,
      ShownPart shown,
      RegionTuning tuning) {
    List<DieRegion> built =
        RegionBuilder.of(
            tiles,
            classifier.joinedWithBlocks(tiles, features, shown.tiles()),
            features,
            classifier.regionConfidence(),
            shown.tiles(),
            shown.edges(),
            tuning);
    List<DieRegion> own = RegionTiles.withoutMosaics(built, features, features.grid());
    List<DieRegion> seen =
        VisibleRegions.of(
            DamagedPlaces.cut(own, features.damage(), features.grid()), shown.outline());
    return NarrowNecks.parted(seen, LEAST_PX2);
  }
}
