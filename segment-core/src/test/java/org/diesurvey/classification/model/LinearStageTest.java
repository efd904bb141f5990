package org.diesurvey.classification.model;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.diesurvey.classification.SurfaceClass;
import org.junit.jupiter.api.Test;

class LinearStageTest {
  @Test
  void scores_areWeightsTimesFeaturesPlusBias() {
    float[][] weights = {{1, 2}, {0, -1}, {0.5f, 0}, {0, 0}, {3, 1}, {-2, 2}};
    float[] bias = {0, 1, 0, 2, 0, -1};
    float[] out = new float[SurfaceClass.COUNT];
    new LinearStage("by hand", weights, bias).scores(new float[] {2, -1}, out);
    assertArrayEquals(new float[] {0, 2, 1, 2, 5, -7}, out);
  }

  /** Odds of two classes are exp of the difference of their scores over the temperature. */
  @Test
  void softmax_turnsScoresIntoProbabilities_softerWhenHot() {
    float[] p = {1, 3, 0, 0, 0, 0};
    Stage.softmax(p, 2);
    float sum = 0;
    for (float v : p) {
      sum += v;
    }
    assertEquals(1, sum, 1e-6);
    assertEquals(Math.E, p[1] / p[0], 1e-5);
  }

  @Test
  void softmaxOfHugeScores_staysFinite() {
    float[] p = {1e30f, 0, -1e30f, 0, 0, 0};
    Stage.softmax(p, 1);
    assertArrayEquals(new float[] {1, 0, 0, 0, 0, 0}, p);
  }

  @Test
  void missingClass_isRefused() {
    assertThrows(
        IllegalArgumentException.class,
        () -> new LinearStage("short", new float[5][2], new float[6]));
    assertThrows(
        IllegalArgumentException.class,
        () -> new LinearStage("short", new float[6][2], new float[5]));
  }
}
