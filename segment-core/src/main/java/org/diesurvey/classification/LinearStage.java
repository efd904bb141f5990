package org.diesurvey.classification;

/**
 * One linear classifier on standardised features: scores are weights times features plus bias,
 * probabilities their softmax. Mutable arrays stay inside the package.
 */
final class LinearStage {
  private final String kind;
  private final float[][] weights;
  private final float[] bias;

  /**
   * @param kind how it was trained, for the record
   * @param weights one row of feature weights for each surface class
   * @param bias one for each surface class
   */
  LinearStage(String kind, float[][] weights, float[] bias) {
    if (weights.length != SurfaceClass.COUNT || bias.length != SurfaceClass.COUNT) {
      throw new IllegalArgumentException(
          "needs " + SurfaceClass.COUNT + " rows of weights, got " + weights.length);
    }
    this.kind = kind;
    this.weights = weights;
    this.bias = bias;
  }

  String kind() {
    return kind;
  }

  float[][] weights() {
    return weights;
  }

  float[] bias() {
    return bias;
  }

  /**
   * Adds this stage's probabilities.
   *
   * @param z standardised features
   * @param temperature divides the scores; above 1 softens
   * @param share weight of this stage in the sum
   * @param out probabilities are added from index at on
   */
  void addProbabilities(float[] z, float temperature, float share, float[] out, int at) {
    float[] score = new float[SurfaceClass.COUNT];
    float top = Float.NEGATIVE_INFINITY;
    for (int k = 0; k < score.length; k++) {
      float s = bias[k];
      float[] w = weights[k];
      for (int f = 0; f < w.length; f++) {
        s += w[f] * z[f];
      }
      score[k] = s / temperature;
      top = Math.max(top, score[k]);
    }
    float sum = 0;
    for (int k = 0; k < score.length; k++) {
      score[k] = (float) Math.exp(score[k] - top);
      sum += score[k];
    }
    for (int k = 0; k < score.length; k++) {
      out[at + k] += share * score[k] / sum;
    }
  }
}
