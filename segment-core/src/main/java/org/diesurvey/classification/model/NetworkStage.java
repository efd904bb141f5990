package org.diesurvey.classification.model;

import java.util.SplittableRandom;
import org.diesurvey.Cancellation;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.vision.MatrixProduct;

/**
 * A small network on standardised features: one hidden layer of rectified linear units, softmax on
 * top. Trained by stochastic gradient descent with adaptive moments (Kingma and Ba 2015, Algorithm
 * 1, from memory) on the cross entropy plus a quadratic penalty. Written here because the library's
 * own network needs a native library of its own for linear algebra.
 */
public final class NetworkStage implements Stage {
  static final String KIND = "network";

  private final float[][] inner;
  private final float[] innerBias;
  private final float[][] outer;
  private final float[] outerBias;

  /**
   * @param inner one row of hidden weights for each feature
   * @param innerBias one for each hidden unit
   * @param outer one row of class weights for each hidden unit
   * @param outerBias one for each class
   */
  public NetworkStage(float[][] inner, float[] innerBias, float[][] outer, float[] outerBias) {
    this.inner = inner;
    this.innerBias = innerBias;
    this.outer = outer;
    this.outerBias = outerBias;
  }

  float[][] inner() {
    return inner;
  }

  float[] innerBias() {
    return innerBias;
  }

  float[][] outer() {
    return outer;
  }

  public float[] outerBias() {
    return outerBias;
  }

  @Override
  public String kind() {
    return KIND;
  }

  @Override
  public void scores(float[] z, float[] out) {
    float[] hidden = innerBias.clone();
    addScaled(hidden, inner, z);
    fromHidden(hidden, 0, out);
  }

  /** The scores from the sums of the hidden units, which begin at an index. */
  private void fromHidden(float[] hidden, int from, float[] out) {
    System.arraycopy(outerBias, 0, out, 0, out.length);
    for (int h = 0; h < outer.length; h++) {
      if (hidden[from + h] > 0) {
        addScaled(out, outer[h], hidden[from + h]);
      }
    }
  }

  @Override
  public float[] scores(float[] rows, int count) {
    int units = innerBias.length;
    float[] hidden = MatrixProduct.of(rows, count, inner.length, flat(inner), units);
    float[] out = new float[count * outerBias.length];
    float[] score = new float[outerBias.length];
    for (int i = 0; i < count; i++) {
      for (int h = 0; h < units; h++) {
        hidden[i * units + h] += innerBias[h];
      }
      fromHidden(hidden, i * units, score);
      System.arraycopy(score, 0, out, i * score.length, score.length);
    }
    return out;
  }

  private static float[] flat(float[][] rows) {
    float[] out = new float[rows.length * rows[0].length];
    for (int r = 0; r < rows.length; r++) {
      System.arraycopy(rows[r], 0, out, r * rows[r].length, rows[r].length);
    }
    return out;
  }

  /** Adds rows, each scaled; four at a time in the order of one by one, so with the same result. */
  private static void addScaled(float[] to, float[][] rows, float[] factors) {
    int f = 0;
    for (; f + 4 <= factors.length; f += 4) {
      addFour(to, rows, f, factors[f], factors[f + 1], factors[f + 2], factors[f + 3]);
    }
    for (; f < factors.length; f++) {
      addScaled(to, rows[f], factors[f]);
    }
  }

  private static void addFour(
      float[] to, float[][] rows, int at, float p, float q, float r, float s) {
    float[] a = rows[at];
    float[] b = rows[at + 1];
    float[] c = rows[at + 2];
    float[] d = rows[at + 3];
    for (int i = 0; i < to.length; i++) {
      to[i] = (((to[i] + p * a[i]) + q * b[i]) + r * c[i]) + s * d[i];
    }
  }

  /** Kept small so that the compiler vectorises it. */
  private static void addScaled(float[] to, float[] row, float factor) {
    for (int i = 0; i < to.length; i++) {
      to[i] += factor * row[i];
    }
  }

  /**
   * Trains a network; the same rows and plan give the same network.
   *
   * @param z standardised rows
   * @param labels class ordinals
   */
  public static NetworkStage train(float[][] z, int[] labels, SmallNetwork.Plan plan) {
    return train(z, certain(labels), alike(labels.length), plan);
  }

  /**
   * Trains a network; the same rows and plan give the same network.
   *
   * @param z standardised rows
   * @param wanted probabilities of the classes for each row
   * @param weight of each row, 1 in the mean
   */
  public static NetworkStage train(
      float[][] z, float[][] wanted, float[] weight, SmallNetwork.Plan plan) {
    SplittableRandom random = new SplittableRandom(plan.seed());
    int p = z[0].length;
    int k = wanted[0].length;
    NetworkStage n =
        new NetworkStage(
            weights(random, p, plan.hidden()),
            new float[plan.hidden()],
            weights(random, plan.hidden(), k),
            new float[k]);
    descend(n, z, wanted, weight, plan, random);
    return n;
  }

  private static float[] alike(int rows) {
    float[] out = new float[rows];
    java.util.Arrays.fill(out, 1);
    return out;
  }

  /**
   * Trains a copy of a network further; the same rows and plan give the same network.
   *
   * @param wanted probabilities of the classes for each row
   * @param plan its hidden units are not looked at
   */
  public static NetworkStage further(
      NetworkStage old, float[][] z, float[][] wanted, SmallNetwork.Plan plan) {
    NetworkStage n = between(old, old, 0);
    descend(n, z, wanted, alike(z.length), plan, new SplittableRandom(plan.seed()));
    return n;
  }

  /** Probability 1 for the class of each row. */
  public static float[][] certain(int[] labels) {
    return certain(labels, SurfaceClass.COUNT);
  }

  /** The same for any number of classes. */
  public static float[][] certain(int[] labels, int classes) {
    float[][] each = new float[classes][classes];
    for (int k = 0; k < each.length; k++) {
      each[k][k] = 1;
    }
    float[][] out = new float[labels.length][];
    for (int i = 0; i < out.length; i++) {
      out[i] = each[labels[i]];
    }
    return out;
  }

  /** The network whose weights lie between those of two of one shape: share 0 is the first. */
  static NetworkStage between(NetworkStage a, NetworkStage b, float share) {
    return new NetworkStage(
        between(a.inner, b.inner, share),
        between(a.innerBias, b.innerBias, share),
        between(a.outer, b.outer, share),
        between(a.outerBias, b.outerBias, share));
  }

  private static float[][] between(float[][] a, float[][] b, float share) {
    float[][] out = new float[a.length][];
    for (int r = 0; r < a.length; r++) {
      out[r] = between(a[r], b[r], share);
    }
    return out;
  }

  private static float[] between(float[] a, float[] b, float share) {
    float[] out = new float[a.length];
    for (int i = 0; i < a.length; i++) {
      out[i] = a[i] + share * (b[i] - a[i]);
    }
    return out;
  }

  private static void descend(
      NetworkStage n,
      float[][] z,
      float[][] wanted,
      float[] weight,
      SmallNetwork.Plan plan,
      SplittableRandom random) {
    Moments moments = new Moments(n);
    int[] order = new int[z.length];
    for (int i = 0; i < order.length; i++) {
      order[i] = i;
    }
    float shrink = (float) (plan.penalty() / z.length);
    int step = 0;
    int steps = plan.epochs() * ((z.length + plan.batch() - 1) / plan.batch());
    for (int epoch = 0; epoch < plan.epochs(); epoch++) {
      shuffle(order, random);
      for (int from = 0; from < order.length; from += plan.batch()) {
        Cancellation.check();
        int to = Math.min(order.length, from + plan.batch());
        moments.clear();
        for (int i = from; i < to; i++) {
          int r = order[i];
          moments.addGradient(n, z[r], wanted[r], weight[r] / (to - from));
        }
        // The step shrinks to nothing, so that the last rows seen do not weigh more than the first.
        double rate = plan.rate() * (1 - step / (double) steps);
        moments.step(n, rate, shrink, ++step);
      }
    }
  }

  /**
   * Gradient of the cross entropy of one row with respect to the hidden weights, the hidden biases,
   * the outer weights and the outer biases.
   */
  static float[][][] gradient(NetworkStage n, float[] z, int label) {
    Moments moments = new Moments(n);
    moments.addGradient(n, z, certain(new int[] {label})[0], 1);
    return moments.gradient;
  }

  private static float[][] weights(SplittableRandom random, int rows, int columns) {
    double bound = Math.sqrt(6.0 / (rows + columns));
    float[][] w = new float[rows][columns];
    for (float[] row : w) {
      for (int i = 0; i < columns; i++) {
        row[i] = (float) (bound * (2 * random.nextDouble() - 1));
      }
    }
    return w;
  }

  private static void shuffle(int[] order, SplittableRandom random) {
    for (int i = order.length - 1; i > 0; i--) {
      int j = random.nextInt(i + 1);
      int t = order[i];
      order[i] = order[j];
      order[j] = t;
    }
  }

  /** Gradient of one batch and running moments of gradients, with the shapes of the network. */
  private static final class Moments {
    private static final double DECAY1 = 0.9;
    private static final double DECAY2 = 0.999;
    private final float[][][] gradient;
    private final float[][][] first;
    private final float[][][] second;
    private final float[] hidden;
    private final float[] score;

    Moments(NetworkStage n) {
      score = new float[n.outerBias.length];
      gradient = like(n);
      first = like(n);
      second = like(n);
      hidden = new float[n.innerBias.length];
    }

    private static float[][][] like(NetworkStage n) {
      return new float[][][] {
        new float[n.inner.length][n.innerBias.length],
        new float[][] {new float[n.innerBias.length]},
        new float[n.outer.length][n.outerBias.length],
        new float[][] {new float[n.outerBias.length]}
      };
    }

    void clear() {
      for (float[][] m : gradient) {
        for (float[] row : m) {
          java.util.Arrays.fill(row, 0);
        }
      }
    }

    void addGradient(NetworkStage n, float[] z, float[] wanted, float weight) {
      System.arraycopy(n.innerBias, 0, hidden, 0, hidden.length);
      addScaled(hidden, n.inner, z);
      System.arraycopy(n.outerBias, 0, score, 0, score.length);
      for (int h = 0; h < hidden.length; h++) {
        hidden[h] = Math.max(0, hidden[h]);
        addScaled(score, n.outer[h], hidden[h]);
      }
      Stage.softmax(score, 1);
      addScaled(score, wanted, -1);
      float[] back = new float[hidden.length];
      for (int h = 0; h < hidden.length; h++) {
        if (hidden[h] > 0) {
          addScaled(gradient[2][h], score, weight * hidden[h]);
          float sum = 0;
          for (int c = 0; c < score.length; c++) {
            sum += n.outer[h][c] * score[c];
          }
          back[h] = sum * weight;
        }
      }
      addScaled(gradient[3][0], score, weight);
      addScaled(gradient[1][0], back, 1);
      for (int f = 0; f < z.length; f++) {
        addScaled(gradient[0][f], back, z[f]);
      }
    }

    void step(NetworkStage n, double rate, float shrink, int step) {
      float[][][] weights = {n.inner, {n.innerBias}, n.outer, {n.outerBias}};
      double unbias1 = 1 - Math.pow(DECAY1, step);
      double unbias2 = 1 - Math.pow(DECAY2, step);
      for (int m = 0; m < weights.length; m++) {
        float penalty = m % 2 == 0 ? shrink : 0;
        for (int r = 0; r < weights[m].length; r++) {
          float[] w = weights[m][r];
          float[] a = first[m][r];
          float[] b = second[m][r];
          for (int i = 0; i < w.length; i++) {
            float g = gradient[m][r][i] + penalty * w[i];
            a[i] = (float) (DECAY1 * a[i] + (1 - DECAY1) * g);
            b[i] = (float) (DECAY2 * b[i] + (1 - DECAY2) * g * g);
            w[i] -= (float) (rate * (a[i] / unbias1) / (Math.sqrt(b[i] / unbias2) + 1e-8));
          }
        }
      }
    }
  }
}
