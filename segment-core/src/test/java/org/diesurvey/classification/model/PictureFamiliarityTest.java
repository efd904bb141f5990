package org.diesurvey.classification.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class PictureFamiliarityTest {
  private static List<float[]> dies(int count) {
    SplittableRandom random = new SplittableRandom(4);
    List<float[]> out = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      float a = (float) random.nextGaussian();
      float b = (float) random.nextGaussian();
      // Two features that go together, one of its own.
      out.add(new float[] {a, a + 0.1f * b, b});
    }
    return out;
  }

  /**
   * With shrinkage 0.2 and features of variance about 1, a step against the correlation counts far
   * more than the same step along it (mean of squares in units of the covariance).
   */
  @Test
  void stepAgainstWhatGoesTogether_isFartherThanTheSameStepAlong() {
    PictureFamiliarity f = PictureFamiliarity.learn(dies(400));
    double along = f.distance(new float[] {2, 2, 0});
    double against = f.distance(new float[] {2, -2, 0});
    assertTrue(against > 5 * along, against + " against, " + along + " along");
    assertTrue(f.distance(new float[] {0, 0, 0}) < 0.05);
  }

  @Test
  void almostAllTrainingDies_lieInside() {
    List<float[]> dies = dies(400);
    PictureFamiliarity f = PictureFamiliarity.learn(dies);
    long outside = dies.stream().filter(d -> f.distance(d) > 1).count();
    assertTrue(outside <= 4, outside + " of 400 outside");
    assertEquals(1, f.distance(new float[] {60, 60, 0}) > 1 ? 1 : 0);
  }
}
