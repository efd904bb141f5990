package org.diesurvey.comparison;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.SplittableRandom;

/**
 * Log odds of a changed tile from {@link TileEvidence}: one hidden layer of rectified linear units,
 * trained on drawn revisions by stochastic gradient descent with adaptive moments (Kingma and Ba
 * 2015, Algorithm 1, from memory) on the cross entropy.
 */
final class ChangeNetwork {
  private static final String SHIPPED = "/org/diesurvey/comparison/change-network.json";
  private static final int HIDDEN = 16;
  private static final int EPOCHS = 12;
  private static final int BATCH = 2048;
  private static final double RATE = 4e-3;
  private static final double PENALTY = 1e-4;

  /** Farthest that a figure counts, in its standard deviations. */
  private static final double FARTHEST = 4;

  private final double[] mean;
  private final double[] spread;

  /** Hidden weights by feature, hidden biases, outer weights, outer bias, in one row. */
  private final double[] weights;

  private ChangeNetwork(double[] mean, double[] spread, double[] weights) {
    this.mean = mean;
    this.spread = spread;
    this.weights = weights;
  }

  /** The one in the library; loaded on first use only. */
  static ChangeNetwork shipped() {
    return Shipped.NETWORK;
  }

  private static final class Shipped {
    static final ChangeNetwork NETWORK = load();

    private static ChangeNetwork load() {
      try (InputStream in = ChangeNetwork.class.getResourceAsStream(SHIPPED)) {
        if (in == null) {
          throw new IllegalStateException("the library has no network of changes");
        }
        return read(in.readAllBytes());
      } catch (IOException e) {
        throw new UncheckedIOException("the network of changes cannot be read", e);
      }
    }
  }

  /** One that finds nothing, to train from. */
  static ChangeNetwork blank() {
    double[] one = new double[TileEvidence.SIZE];
    java.util.Arrays.fill(one, 1);
    return new ChangeNetwork(
        new double[TileEvidence.SIZE], one, new double[(TileEvidence.SIZE + 2) * HIDDEN + 1]);
  }

  static ChangeNetwork read(byte[] json) throws IOException {
    JsonNode n = new ObjectMapper().readTree(json);
    return new ChangeNetwork(row(n, "mean"), row(n, "spread"), row(n, "weights"));
  }

  byte[] write() throws IOException {
    ObjectMapper mapper = new ObjectMapper();
    ObjectNode n = mapper.createObjectNode();
    put(n.putArray("mean"), mean);
    put(n.putArray("spread"), spread);
    put(n.putArray("weights"), weights);
    return mapper.writerWithDefaultPrettyPrinter().writeValueAsBytes(n);
  }

  private static void put(ArrayNode out, double[] row) {
    for (double v : row) {
      out.add((float) v);
    }
  }

  private static double[] row(JsonNode n, String name) {
    double[] out = new double[n.path(name).size()];
    for (int i = 0; i < out.length; i++) {
      out[i] = n.path(name).get(i).asDouble();
    }
    return out;
  }

  /** Log odds that the tile has changed. */
  float of(float[] features) {
    double[] z = new double[mean.length];
    for (int f = 0; f < z.length; f++) {
      z[f] = held((features[f] - mean[f]) / spread[f]);
    }
    return (float) scores(weights, z, new double[HIDDEN]);
  }

  /** Within what training saw, so that nothing is told from far outside. */
  private static double held(double z) {
    return Math.max(-FARTHEST, Math.min(FARTHEST, z));
  }

  private static double scores(double[] w, double[] z, double[] hidden) {
    int bias = z.length * HIDDEN;
    double sum = w[bias + 2 * HIDDEN];
    for (int h = 0; h < HIDDEN; h++) {
      double v = w[bias + h];
      for (int f = 0; f < z.length; f++) {
        v += z[f] * w[f * HIDDEN + h];
      }
      hidden[h] = Math.max(0, v);
      sum += hidden[h] * w[bias + HIDDEN + h];
    }
    return sum;
  }

  /**
   * @param rows features, one row a tile
   * @param changed 1 for changed tiles, else 0
   * @param weight of each row
   */
  static ChangeNetwork train(float[][] rows, float[] changed, float[] weight) {
    int n = rows.length;
    int size = rows[0].length;
    double[] mean = new double[size];
    double[] spread = new double[size];
    for (int f = 0; f < size; f++) {
      double sum = 0;
      double square = 0;
      for (float[] r : rows) {
        sum += r[f];
        square += (double) r[f] * r[f];
      }
      mean[f] = sum / n;
      spread[f] = Math.sqrt(Math.max(1e-6, square / n - mean[f] * mean[f]));
    }
    SplittableRandom random = new SplittableRandom(1);
    int bias = size * HIDDEN;
    double[] w = new double[bias + 2 * HIDDEN + 1];
    for (int i = 0; i < bias; i++) {
      w[i] = (random.nextDouble() + random.nextDouble() - 1) * Math.sqrt(12.0 / size);
    }
    for (int h = 0; h < HIDDEN; h++) {
      w[bias + HIDDEN + h] =
          (random.nextDouble() + random.nextDouble() - 1) * Math.sqrt(6.0 / HIDDEN);
    }
    double[] first = new double[w.length];
    double[] second = new double[w.length];
    int[] order = new int[n];
    for (int i = 0; i < n; i++) {
      order[i] = i;
    }
    double[] z = new double[size];
    double[] hidden = new double[HIDDEN];
    int step = 0;
    for (int e = 0; e < EPOCHS; e++) {
      for (int i = n - 1; i > 0; i--) {
        int k = random.nextInt(i + 1);
        int o = order[i];
        order[i] = order[k];
        order[k] = o;
      }
      for (int from = 0; from < n; from += BATCH) {
        double[] slope = new double[w.length];
        double all = 0;
        int to = Math.min(n, from + BATCH);
        for (int i = from; i < to; i++) {
          all += weight[order[i]];
        }
        for (int i = from; i < to; i++) {
          int r = order[i];
          for (int f = 0; f < size; f++) {
            z[f] = held((rows[r][f] - mean[f]) / spread[f]);
          }
          double p = 1 / (1 + Math.exp(-scores(w, z, hidden)));
          double d = (p - changed[r]) * weight[r] / all;
          slope[bias + 2 * HIDDEN] += d;
          for (int h = 0; h < HIDDEN; h++) {
            if (hidden[h] > 0) {
              slope[bias + HIDDEN + h] += d * hidden[h];
              double back = d * w[bias + HIDDEN + h];
              slope[bias + h] += back;
              for (int f = 0; f < size; f++) {
                slope[f * HIDDEN + h] += back * z[f];
              }
            }
          }
        }
        step++;
        double rate = RATE * (1 - 0.9 * e / EPOCHS);
        for (int i = 0; i < w.length; i++) {
          double g = slope[i] + PENALTY * w[i];
          first[i] = 0.9 * first[i] + 0.1 * g;
          second[i] = 0.999 * second[i] + 0.001 * g * g;
          w[i] -=
              rate
                  * (first[i] / (1 - Math.pow(0.9, step)))
                  / (Math.sqrt(second[i] / (1 - Math.pow(0.999, step))) + 1e-8);
        }
      }
    }
    return new ChangeNetwork(mean, spread, w);
  }
}
