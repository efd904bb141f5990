package org.diesurvey.comparison.training;

import java.util.ArrayList;
import java.util.List;

/** Figures, classes and weights that one pair of revisions gives to a training; only grows. */
public final class TrainingRows {
  private final List<float[]> rows = new ArrayList<>();
  private final List<Integer> labels = new ArrayList<>();
  private final List<Float> weights = new ArrayList<>();

  TrainingRows() {}

  void add(float[] row, int label, float weight) {
    rows.add(row);
    labels.add(label);
    weights.add(weight);
  }

  /** Whether the pair gave nothing. */
  public boolean isEmpty() {
    return rows.isEmpty();
  }

  /** The rows of several pairs, in their order. */
  static TrainingRows together(List<TrainingRows> parts) {
    TrainingRows all = new TrainingRows();
    for (TrainingRows p : parts) {
      all.rows.addAll(p.rows);
      all.labels.addAll(p.labels);
      all.weights.addAll(p.weights);
    }
    return all;
  }

  float[][] rows() {
    return rows.toArray(float[][]::new);
  }

  int[] labels() {
    return labels.stream().mapToInt(Integer::intValue).toArray();
  }

  float[] weights() {
    float[] out = new float[weights.size()];
    for (int i = 0; i < out.length; i++) {
      out[i] = weights.get(i);
    }
    return out;
  }
}
