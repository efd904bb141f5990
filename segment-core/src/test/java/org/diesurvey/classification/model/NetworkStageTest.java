package org.diesurvey.classification.model;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.SplittableRandom;
import org.diesurvey.CancelledException;
import org.diesurvey.classification.SurfaceClass;
import org.junit.jupiter.api.Test;

class NetworkStageTest {
  private static final SmallNetwork.Plan PLAN = new SmallNetwork.Plan(24, 60, 32, 0.01, 0.1, 5);

  private static NetworkStage random(int features, int hidden) {
    SplittableRandom random = new SplittableRandom(3);
    float[][] inner = fill(random, features, hidden);
    float[][] outer = fill(random, hidden, SurfaceClass.COUNT);
    return new NetworkStage(
        inner, fill(random, 1, hidden)[0], outer, fill(random, 1, SurfaceClass.COUNT)[0]);
  }

  private static float[][] fill(SplittableRandom random, int rows, int columns) {
    float[][] m = new float[rows][columns];
    for (float[] row : m) {
      for (int i = 0; i < columns; i++) {
        row[i] = (float) (0.6 * random.nextGaussian());
      }
    }
    return m;
  }

  /** Cross entropy in double precision, written out plainly. */
  private static double loss(NetworkStage n, float[] z, int label) {
    double[] score = new double[SurfaceClass.COUNT];
    for (int k = 0; k < score.length; k++) {
      score[k] = n.outerBias()[k];
    }
    for (int h = 0; h < n.innerBias().length; h++) {
      double sum = n.innerBias()[h];
      for (int f = 0; f < z.length; f++) {
        sum += (double) n.inner()[f][h] * z[f];
      }
      for (int k = 0; k < score.length; k++) {
        score[k] += Math.max(0, sum) * n.outer()[h][k];
      }
    }
    double total = 0;
    for (double s : score) {
      total += Math.exp(s);
    }
    return Math.log(total) - score[label];
  }

  /** The gradient that training follows against differences of the loss for every weight. */
  @Test
  void gradient_equalsNumericalDifferences() {
    NetworkStage n = random(5, 7);
    float[] z = {0.3f, -1.2f, 0.8f, 2.1f, -0.4f};
    for (int label = 0; label < SurfaceClass.COUNT; label++) {
      float[][][] gradient = NetworkStage.gradient(n, z, label);
      float[][][] weights = {
        n.inner(), {n.innerBias()}, n.outer(), {n.outerBias()},
      };
      for (int m = 0; m < weights.length; m++) {
        for (int r = 0; r < weights[m].length; r++) {
          for (int i = 0; i < weights[m][r].length; i++) {
            float kept = weights[m][r][i];
            weights[m][r][i] = kept + 1e-3f;
            double above = loss(n, z, label);
            double high = weights[m][r][i];
            weights[m][r][i] = kept - 1e-3f;
            double slope = (above - loss(n, z, label)) / (high - weights[m][r][i]);
            weights[m][r][i] = kept;
            assertEquals(slope, gradient[m][r][i], 2e-4, m + " " + r + " " + i);
          }
        }
      }
    }
  }

  @Test
  void scores_areThoseOfThePlainSums() {
    NetworkStage n = random(5, 7);
    float[] z = {0.3f, -1.2f, 0.8f, 2.1f, -0.4f};
    float[] p = new float[SurfaceClass.COUNT];
    n.scores(z, p);
    Stage.softmax(p, 1);
    for (int k = 0; k < p.length; k++) {
      assertEquals(Math.exp(-loss(n, z, k)), p[k], 1e-5);
    }
  }

  @Test
  void scoresOfManyTiles_areThoseOfEach() {
    NetworkStage n = random(5, 7);
    SplittableRandom random = new SplittableRandom(3);
    float[] rows = new float[5 * 40];
    for (int i = 0; i < rows.length; i++) {
      rows[i] = (float) random.nextGaussian();
    }
    float[] all = n.scores(rows, 40);
    float[] one = new float[SurfaceClass.COUNT];
    for (int i = 0; i < 40; i++) {
      n.scores(Arrays.copyOfRange(rows, 5 * i, 5 * i + 5), one);
      assertArrayEquals(
          one, Arrays.copyOfRange(all, i * one.length, (i + 1) * one.length), 1e-5f, "row " + i);
    }
  }

  /** Exclusive or of two signs: no linear classifier gets more than about three quarters right. */
  @Test
  void exclusiveOr_isLearned() {
    float[][] z = points(600, 1);
    NetworkStage n = NetworkStage.train(z, labels(z), PLAN);
    float[][] fresh = points(400, 2);
    int[] truth = labels(fresh);
    int right = 0;
    for (int i = 0; i < fresh.length; i++) {
      right += best(n, fresh[i]) == truth[i] ? 1 : 0;
    }
    assertTrue(right > 0.95 * fresh.length, right + " of 400 right");
  }

  private static float[][] points(int count, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    float[][] z = new float[count][3];
    for (float[] row : z) {
      for (int f = 0; f < row.length; f++) {
        row[f] = (float) random.nextGaussian();
      }
    }
    return z;
  }

  private static int[] labels(float[][] z) {
    return Arrays.stream(z).mapToInt(r -> r[0] * r[1] > 0 ? 1 : 2).toArray();
  }

  private static int best(Stage stage, float[] z) {
    float[] score = new float[SurfaceClass.COUNT];
    stage.scores(z, score);
    int at = 0;
    for (int k = 1; k < score.length; k++) {
      at = score[k] > score[at] ? k : at;
    }
    return at;
  }

  @Test
  void sameSeed_givesTheSameWeights_anotherSeedOthers() {
    float[][] z = points(200, 4);
    SmallNetwork.Plan plan = new SmallNetwork.Plan(8, 3, 32, 0.01, 1, 5);
    NetworkStage a = NetworkStage.train(z, labels(z), plan);
    NetworkStage b = NetworkStage.train(z, labels(z), plan);
    NetworkStage other =
        NetworkStage.train(z, labels(z), new SmallNetwork.Plan(8, 3, 32, 0.01, 1, 6));
    for (int f = 0; f < 3; f++) {
      assertArrayEquals(a.inner()[f], b.inner()[f]);
      assertFalse(Arrays.equals(a.inner()[f], other.inner()[f]));
    }
    for (int h = 0; h < 8; h++) {
      assertArrayEquals(a.outer()[h], b.outer()[h]);
    }
  }

  /** A training of minutes ends when its thread is interrupted, as cancelling does. */
  @Test
  void interruptedTraining_ends() {
    float[][] z = points(400, 1);
    SmallNetwork.Plan endless = new SmallNetwork.Plan(24, 1_000_000_000, 32, 0.01, 0.1, 5);
    Thread.currentThread().interrupt();
    assertThrows(CancelledException.class, () -> NetworkStage.train(z, labels(z), endless));
    assertTrue(Thread.interrupted(), "the mark stays");
  }
}
