package org.diesurvey.classification.model;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;

/**
 * Scores of any number of classes from a row of figures: standardised, one hidden layer of
 * rectified linear units; trained as the networks of the tile model are. Immutable.
 */
public final class SmallNetwork {
  private final Standardiser standardiser;
  private final NetworkStage stage;

  private SmallNetwork(Standardiser standardiser, NetworkStage stage) {
    this.standardiser = standardiser;
    this.stage = stage;
  }

  /**
   * How a network is trained.
   *
   * @param hidden units of the hidden layer, at least 1
   * @param epochs passes over the rows, at least 1
   * @param batch rows a step, at least 1
   * @param rate first step size; it falls to 0
   * @param penalty quadratic penalty on the weights, of the sum over all rows
   * @param seed of the first weights and of the order of the rows
   */
  public record Plan(int hidden, int epochs, int batch, double rate, double penalty, long seed) {
    /** The same from another start. */
    public Plan withSeed(long other) {
      return new Plan(hidden, epochs, batch, rate, penalty, other);
    }
  }

  /**
   * Trains a network; the same input gives the same network.
   *
   * @param rows figures, at least one row, all of one length
   * @param labels class of each row, from 0
   * @param weights of the rows, above 0
   * @param classes how many there are
   */
  public static SmallNetwork train(
      float[][] rows, int[] labels, float[] weights, int classes, Plan plan) {
    Standardiser standardiser = Standardiser.learn(rows);
    float[][] z = new float[rows.length][rows[0].length];
    double sum = 0;
    for (int i = 0; i < rows.length; i++) {
      standardiser.apply(rows[i], z[i]);
      sum += weights[i];
    }
    float[] even = new float[weights.length];
    for (int i = 0; i < even.length; i++) {
      even[i] = (float) (weights[i] * weights.length / sum);
    }
    return new SmallNetwork(
        standardiser, NetworkStage.train(z, NetworkStage.certain(labels, classes), even, plan));
  }

  /** One that gives score 0 to every class. */
  public static SmallNetwork blank(int figures, int classes) {
    float[] scale = new float[figures];
    java.util.Arrays.fill(scale, 1);
    return new SmallNetwork(
        new Standardiser(new float[figures], scale),
        new NetworkStage(
            new float[figures][1], new float[1], new float[1][classes], new float[classes]));
  }

  /** Figures that it takes. */
  public int figures() {
    return standardiser.centre().length;
  }

  /** Scores of the classes before the softmax; a difference of two is their log odds. */
  public float[] scores(float[] row) {
    float[] z = new float[figures()];
    standardiser.apply(row, z);
    float[] out = new float[stage.outerBias().length];
    stage.scores(z, out);
    return out;
  }

  /** Probabilities of the classes, together 1. */
  public float[] probabilities(float[] row) {
    float[] out = scores(row);
    Stage.softmax(out, 1);
    return out;
  }

  /** As JSON: {@code centre}, {@code scale}, {@code inner}, {@code outer} and their biases. */
  public byte[] write() throws IOException {
    ObjectMapper mapper = new ObjectMapper();
    ObjectNode n = mapper.createObjectNode();
    ModelFile.floats(n.putArray("centre"), standardiser.centre());
    ModelFile.floats(n.putArray("scale"), standardiser.scale());
    ModelFile.matrix(n.putArray("inner"), stage.inner());
    ModelFile.floats(n.putArray("inner_bias"), stage.innerBias());
    ModelFile.matrix(n.putArray("outer"), stage.outer());
    ModelFile.floats(n.putArray("outer_bias"), stage.outerBias());
    return mapper.writerWithDefaultPrettyPrinter().writeValueAsBytes(n);
  }

  /** Reads what {@link #write} wrote. */
  public static SmallNetwork read(byte[] json) throws IOException {
    JsonNode n = new ObjectMapper().readTree(json);
    return new SmallNetwork(
        new Standardiser(row(n.path("centre")), row(n.path("scale"))),
        new NetworkStage(
            rows(n.path("inner")),
            row(n.path("inner_bias")),
            rows(n.path("outer")),
            row(n.path("outer_bias"))));
  }

  private static float[][] rows(JsonNode n) {
    float[][] out = new float[n.size()][];
    for (int i = 0; i < out.length; i++) {
      out[i] = row(n.get(i));
    }
    return out;
  }

  private static float[] row(JsonNode n) {
    float[] out = new float[n.size()];
    for (int i = 0; i < out.length; i++) {
      out[i] = n.get(i).floatValue();
    }
    return out;
  }
}
