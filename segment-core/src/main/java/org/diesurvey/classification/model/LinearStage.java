package org.diesurvey.classification.model;

import java.util.Arrays;
import org.diesurvey.classification.SurfaceClass;

/**
 * One linear classifier on standardised features: scores are weights times features plus bias,
 * probabilities their softmax. Mutable arrays stay inside the package.
 */
public final class LinearStage implements Stage {
  private final String kind;
  private final float[][] weights;
  private final float[] bias;

  /**
   * @param kind how it was trained, for the record
   * @param weights one row of feature weights for each surface class
   * @param bias one for each surface class
   */
  public LinearStage(String kind, float[][] weights, float[] bias) {
    if (weights.length != SurfaceClass.COUNT || bias.length != SurfaceClass.COUNT) {
      throw new IllegalArgumentException(
          "needs " + SurfaceClass.COUNT + " rows of weights, got " + weights.length);
    }
    this.kind = kind;
    this.weights = weights;
    this.bias = bias;
  }

  @Override
  public String kind() {
    return kind;
  }

  float[][] weights() {
    return weights;
  }

  float[] bias() {
    return bias;
  }

  @Override
  public void scores(float[] z, float[] out) {
    for (int k = 0; k < out.length; k++) {
      float sum = bias[k];
      float[] w = weights[k];
      for (int f = 0; f < w.length; f++) {
        sum += w[f] * z[f];
      }
      out[k] = sum;
    }
  }

  @Override
  public float[] scores(float[] rows, int count) {
    int features = weights[0].length;
    float[] out = new float[count * bias.length];
    float[] score = new float[bias.length];
    for (int i = 0; i < count; i++) {
      scores(Arrays.copyOfRange(rows, i * features, (i + 1) * features), score);
      System.arraycopy(score, 0, out, i * bias.length, bias.length);
    }
    return out;
  }
}
