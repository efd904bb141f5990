package org.diesurvey.classification.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.TreeMap;
import org.apache.commons.math3.stat.descriptive.SummaryStatistics;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.features.FeatureTable;
import org.junit.jupiter.api.Test;

/** Means and deviations are held against Commons Math 3. */
class BlockFeaturesTest {
  private static final int K = SurfaceClass.COUNT;
  private static final FeatureTable DIE = TinyModels.die(5);
  private static final TileModel MODEL = TinyModels.random(9);

  private static boolean[] everywhere() {
    boolean[] all = new boolean[DIE.grid().count()];
    Arrays.fill(all, true);
    return all;
  }

  /** The left third one class, the rest another. */
  private static TileProbabilities halves() {
    return TileBlocksTest.evidence(DIE.grid(), (r, c) -> c < 4 ? 1 : 2);
  }

  private static BlockFeatures blocks() {
    return BlockFeatures.of(DIE, halves(), MODEL.first().standardiser(), everywhere());
  }

  @Test
  void meanAndSpreadOfFeatures_areThoseOfTheBlocksTiles() {
    BlockFeatures blocks = blocks();
    assertEquals(2, blocks.count());
    int own = MODEL.features();
    int at = 3 * K + 1 + 7;
    float[] z = new float[own];
    for (int f : new int[] {0, 17, 113, own - 2}) {
      SummaryStatistics left = new SummaryStatistics();
      for (int t = 0; t < DIE.grid().count(); t++) {
        if (t % 12 < 4) {
          MODEL.first().standardiser().apply(DIE.vectors().of(t), z);
          left.addValue(z[f]);
        }
      }
      float[] row = blocks.row(blocks.of(0));
      assertEquals(left.getMean(), row[at + f], 1e-5);
      assertEquals(Math.sqrt(left.getPopulationVariance()), row[at + own + f], 1e-4);
    }
  }

  @Test
  void evidenceBordersAndForm_areToldAsTheyAre() {
    BlockFeatures blocks = blocks();
    float[] row = blocks.row(blocks.of(0));
    assertEquals(BlockFeatures.size(MODEL.features()), row.length);
    assertEquals(Math.log(0.7 + 0.01), row[1], 1e-6);
    assertEquals(0, row[K + 1], 1e-3);
    // 4 by 12 tiles: 12 sides along the other block, 20 along the picture's border.
    assertEquals(12 / 32.0, row[2 * K + 2], 1e-6);
    assertEquals(20 / 32.0, row[2 * K + K], 1e-6);
    int form = 3 * K + 1;
    assertEquals(Math.log(48), row[form], 1e-6);
    assertEquals(1, row[form + 1], 1e-6);
    assertEquals(Math.log(3), row[form + 2], 1e-6);
    assertEquals(Math.log(4), row[form + 3], 1e-6);
    assertEquals(Math.log(32 / Math.sqrt(48)), row[form + 4], 1e-6);
    assertEquals(1, row[form + 5], 0);
    assertEquals(1 / 3.0, row[form + 6], 1e-6);
    double onDie = (0.7 * 48 + 0.06 * 96) / 144;
    assertEquals(Math.log(onDie + 0.01), row[row.length - K + 1], 1e-6);
  }

  /** Without a classifier of blocks nothing changes; with one the roots of both are multiplied. */
  @Test
  void evidence_isTheProductOfTheRoots() {
    TileProbabilities tiles = halves();
    assertSame(tiles, TileClassifier.of(MODEL).joinedWithBlocks(tiles, DIE, everywhere()));
    float[] bias = {0, 0, 2, 0, 0, 0};
    int size = BlockFeatures.size(MODEL.features());
    float[] scale = new float[size];
    Arrays.fill(scale, 1);
    Ensemble always =
        new Ensemble(
            new Standardiser(new float[size], scale),
            List.of(new LinearStage("linear", new float[K][size], bias)),
            1);
    TileClassifier joined = TileClassifier.of(MODEL.withBlocks(always, new TreeMap<>()));
    TileProbabilities p = joined.joinedWithBlocks(tiles, DIE, everywhere());
    double e = Math.exp(2) / (5 + Math.exp(2));
    double other = 1 / (5 + Math.exp(2));
    double two = Math.sqrt(0.06 * e);
    double one = Math.sqrt(0.7 * other);
    double sum = two + one + 4 * Math.sqrt(0.06 * other);
    assertEquals(one / sum, p.get(0, SurfaceClass.MACRO), 1e-5);
    assertEquals(two / sum, p.get(0, SurfaceClass.CELL_ROWS), 1e-5);
    double all = 0;
    for (SurfaceClass c : SurfaceClass.values()) {
      all += p.get(7, c);
    }
    assertEquals(1, all, 1e-5);
  }

  @Test
  void aModelWithBlocks_comesBackFromItsFile() {
    int size = BlockFeatures.size(MODEL.features());
    float[] scale = new float[size];
    Arrays.fill(scale, 1);
    Ensemble e =
        new Ensemble(
            new Standardiser(new float[size], scale),
            List.of(new LinearStage("linear", new float[K][size], new float[] {1, 0, 0, 0, 0, 3})),
            1.2f);
    TileModel model = MODEL.withBlocks(e, new TreeMap<>());
    TileClassifier back = TileClassifier.of(ModelFile.write(model), "m");
    TileProbabilities tiles = halves();
    TileProbabilities a = TileClassifier.of(model).joinedWithBlocks(tiles, DIE, everywhere());
    TileProbabilities b = back.joinedWithBlocks(tiles, DIE, everywhere());
    assertTrue(b.get(3, SurfaceClass.BARE) > tiles.get(3, SurfaceClass.BARE));
    assertEquals(a.get(3, SurfaceClass.BARE), b.get(3, SurfaceClass.BARE), 0);
  }
}
