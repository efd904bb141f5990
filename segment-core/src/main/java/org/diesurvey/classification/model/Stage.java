package org.diesurvey.classification.model;

import org.diesurvey.classification.SurfaceClass;

/** One trained member of a model: scores of the surface classes from standardised features. */
public sealed interface Stage permits LinearStage, NetworkStage {
  /** How it was trained, for the record. */
  String kind();

  /**
   * Writes the scores, one for each surface class, before the softmax.
   *
   * @param z standardised features
   */
  void scores(float[] z, float[] out);

  /**
   * Scores of many tiles at once.
   *
   * @param rows standardised features, one row after the other
   * @param count of rows
   * @return {@link SurfaceClass#COUNT} scores for each row
   */
  float[] scores(float[] rows, int count);

  /** Turns scores into probabilities in place; a temperature above 1 softens. */
  static void softmax(float[] score, float temperature) {
    float top = Float.NEGATIVE_INFINITY;
    for (float s : score) {
      top = Math.max(top, s);
    }
    float sum = 0;
    for (int k = 0; k < score.length; k++) {
      score[k] = (float) Math.exp((score[k] - top) / temperature);
      sum += score[k];
    }
    for (int k = 0; k < score.length; k++) {
      score[k] /= sum;
    }
  }
}
