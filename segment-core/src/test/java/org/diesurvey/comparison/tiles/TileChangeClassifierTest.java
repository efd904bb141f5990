package org.diesurvey.comparison.tiles;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class TileChangeClassifierTest {
  private static final int ROWS = 60000;

  /** Changed where two figures have unlike signs: no straight line parts these. */
  private static TileChangeClassifier trained(float[][] rows) {
    SplittableRandom random = new SplittableRandom(5);
    int[] changed = new int[ROWS];
    float[] weight = new float[ROWS];
    for (int i = 0; i < ROWS; i++) {
      for (int f = 0; f < rows[i].length; f++) {
        rows[i][f] = (float) (2 * random.nextDouble() - 1);
      }
      changed[i] = rows[i][0] * rows[i][1] < 0 ? 1 : 0;
      weight[i] = 1;
    }
    return TileChangeClassifier.train(rows, changed, weight);
  }

  @Test
  void learnsWhatNoStraightLineParts_andSurvivesItsFile() throws IOException {
    float[][] rows = new float[ROWS][3];
    TileChangeClassifier network = trained(rows);
    int right = 0;
    TileChangeClassifier read = TileChangeClassifier.read(network.write());
    for (float[] r : rows) {
      right += network.of(r) > 0 == r[0] * r[1] < 0 ? 1 : 0;
      assertEquals(network.of(r), read.of(r), 1e-2);
    }
    assertTrue(right > 0.8 * ROWS, right + " of " + ROWS);
  }

  @Test
  void trainsToTheSameBytes() throws IOException {
    assertArrayEquals(trained(new float[ROWS][3]).write(), trained(new float[ROWS][3]).write());
  }

  @Test
  void shippedOne_takesTheEvidenceOfATile() {
    assertTrue(
        Float.isFinite(TileChangeClassifier.shipped().of(new float[TileChangeFeatures.SIZE])));
  }
}
