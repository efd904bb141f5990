package org.diesurvey.classification;

import java.util.List;

/**
 * Classifiers on the same standardised features whose probabilities are averaged.
 *
 * @param standardiser of the features
 * @param stages at least one
 * @param temperature divides all scores; found on dies left out
 */
record Ensemble(Standardiser standardiser, List<Stage> stages, float temperature) {
  Ensemble {
    stages = List.copyOf(stages);
    if (stages.isEmpty() || !(temperature > 0)) {
      throw new IllegalArgumentException("an ensemble needs a stage and a temperature above 0");
    }
  }

  Ensemble withTemperature(float t) {
    return new Ensemble(standardiser, stages, t);
  }

  /** Number of features. */
  int features() {
    return standardiser.centre().length;
  }

  /** Adds the mean of the stages' probabilities to the sums from index at on. */
  void addProbabilities(float[] z, float[] out, int at) {
    float share = 1f / stages.size();
    float[] score = new float[SurfaceClass.COUNT];
    for (Stage s : stages) {
      s.scores(z, score);
      Stage.softmax(score, temperature);
      for (int k = 0; k < score.length; k++) {
        out[at + k] += share * score[k];
      }
    }
  }
}
