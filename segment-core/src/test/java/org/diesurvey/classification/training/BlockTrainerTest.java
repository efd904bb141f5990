package org.diesurvey.classification.training;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.classification.model.TileClassifier;
import org.diesurvey.classification.model.TinyModels;
import org.diesurvey.features.FeatureTable;
import org.junit.jupiter.api.Test;

class BlockTrainerTest {
  /** Three blocks of four tile columns, two unlike textures in each. */
  private static final int[] CLASSES = IntStream.range(0, 144).map(t -> t % 12 / 4).toArray();

  private static boolean[] everywhere() {
    boolean[] all = new boolean[CLASSES.length];
    Arrays.fill(all, true);
    return all;
  }

  /** What looks that mistake class 1 for class 4 make of a die: the middle block is another. */
  private static TileProbabilities mistaken(FeatureTable die) {
    float[] values = new float[CLASSES.length * SurfaceClass.COUNT];
    for (int t = 0; t < CLASSES.length; t++) {
      int seen = CLASSES[t] == 1 ? 4 : CLASSES[t];
      for (int k = 0; k < SurfaceClass.COUNT; k++) {
        values[t * SurfaceClass.COUNT + k] = k == seen ? 0.5f : 0.1f;
      }
    }
    return new TileProbabilities(die.grid(), values, new float[CLASSES.length]);
  }

  private static BlockSet set(TileClassifier first, int[] classes) {
    BlockSet set = new BlockSet();
    for (int die = 0; die < 40; die++) {
      FeatureTable table = TinyModels.die(die);
      set.add(
          first.blocks(mistaken(table), table, everywhere()), classes, TrainingSet.leftOut(die));
    }
    return set;
  }

  /** Blocks tell a class apart that tiles mistook, by what they show as a whole. */
  @Test
  void aMistakeOfTiles_isMendedByBlocks_andTrainingIsRepeatable() {
    TileClassifier first = TileClassifier.of(TinyModels.random(3));
    BlockTrainer.Trained one = BlockTrainer.train(first, first, set(first, CLASSES));
    BlockTrainer.Trained two = BlockTrainer.train(first, first, set(first, CLASSES));
    assertArrayEquals(one.classifier().bytes(), two.classifier().bytes());
    assertArrayEquals(one.partial().bytes(), two.partial().bytes());
    assertTrue(one.accuracyLeftOut() > 0.9, "accuracy " + one.accuracyLeftOut());
    FeatureTable fresh = TinyModels.die(77);
    TileProbabilities p = one.classifier().joinedWithBlocks(mistaken(fresh), fresh, everywhere());
    int right = 0;
    for (int t = 0; t < CLASSES.length; t++) {
      right += p.best(t).ordinal() == CLASSES[t] ? 1 : 0;
    }
    assertTrue(right > 0.9 * CLASSES.length, right + " of 144 tiles right");
    assertEquals("120", one.classifier().model().training().get("blocks"));
  }

  /** Blocks of which no tile is known teach nothing. */
  @Test
  void blocksOfUnknownClass_areNoSamples() {
    TileClassifier first = TileClassifier.of(TinyModels.random(3));
    int[] few = CLASSES.clone();
    for (int t = 0; t < few.length; t++) {
      few[t] = few[t] < 2 ? few[t] : -1;
    }
    assertEquals(80, set(first, few).size());
  }
}
