package org.diesurvey.classification.model;

import java.util.ArrayList;
import java.util.List;
import org.diesurvey.classification.SurfaceClass;

/**
 * Classifiers on the same standardised features whose probabilities are averaged.
 *
 * @param standardiser of the features
 * @param stages at least one
 * @param temperature divides all scores; found on dies left out
 */
public record Ensemble(Standardiser standardiser, List<Stage> stages, float temperature) {
  /** Blocks judged at a time. */
  private static final int AT_A_TIME = 256;

  public Ensemble {
    stages = List.copyOf(stages);
    if (stages.isEmpty() || !(temperature > 0)) {
      throw new IllegalArgumentException("an ensemble needs a stage and a temperature above 0");
    }
  }

  public Ensemble withTemperature(float t) {
    return new Ensemble(standardiser, stages, t);
  }

  /** The ensemble whose networks lie between those of two of one shape: share 0 is the first. */
  public static Ensemble between(Ensemble a, Ensemble b, double share) {
    List<Stage> stages = new ArrayList<>();
    for (int i = 0; i < a.stages.size(); i++) {
      stages.add(
          a.stages.get(i) instanceof NetworkStage n && b.stages.get(i) instanceof NetworkStage m
              ? NetworkStage.between(n, m, (float) share)
              : a.stages.get(i));
    }
    return new Ensemble(a.standardiser, stages, a.temperature);
  }

  /** Whether the networks of two ensembles can be mixed. */
  boolean sameShape(Ensemble other) {
    boolean same = stages.size() == other.stages.size();
    for (int i = 0; same && i < stages.size(); i++) {
      same =
          stages.get(i) instanceof NetworkStage n && other.stages.get(i) instanceof NetworkStage m
              ? n.innerBias().length == m.innerBias().length
              : stages.get(i).kind().equals(other.stages.get(i).kind());
    }
    return same;
  }

  /** Number of features. */
  public int features() {
    return standardiser.centre().length;
  }

  /**
   * Adds the mean of the stages' probabilities of many tiles to the sums from index at on.
   *
   * @param rows standardised features, one row after the other
   * @param count of rows
   */
  public void addProbabilities(float[] rows, int count, float[] out, int at) {
    float[] score = new float[SurfaceClass.COUNT];
    for (Stage s : stages) {
      float[] all = s.scores(rows, count);
      for (int i = 0; i < count; i++) {
        System.arraycopy(all, i * score.length, score, 0, score.length);
        addShare(score, out, at + i * score.length);
      }
    }
  }

  /** Adds the mean of the stages' probabilities to the sums from index at on. */
  public void addProbabilities(float[] z, float[] out, int at) {
    float[] score = new float[SurfaceClass.COUNT];
    for (Stage s : stages) {
      s.scores(z, score);
      addShare(score, out, at);
    }
  }

  /** Probabilities from features that are not standardised. */
  public float[] probabilities(float[] row) {
    float[] z = new float[features()];
    standardiser.apply(row, z);
    float[] out = new float[SurfaceClass.COUNT];
    addProbabilities(z, out, 0);
    return out;
  }

  /** Probabilities of blocks, {@link SurfaceClass#COUNT} each, one after the other. */
  float[] probabilities(BlockFeatures blocks) {
    int size = features();
    float[] z = new float[size];
    float[] some = new float[Math.min(AT_A_TIME, blocks.count()) * size];
    float[] out = new float[blocks.count() * SurfaceClass.COUNT];
    for (int from = 0; from < blocks.count(); from += AT_A_TIME) {
      int n = Math.min(AT_A_TIME, blocks.count() - from);
      for (int b = 0; b < n; b++) {
        standardiser.apply(blocks.row(from + b), z);
        System.arraycopy(z, 0, some, b * size, size);
      }
      addProbabilities(some, n, out, from * SurfaceClass.COUNT);
    }
    return out;
  }

  private void addShare(float[] score, float[] out, int at) {
    float share = 1f / stages.size();
    Stage.softmax(score, temperature);
    for (int k = 0; k < score.length; k++) {
      out[at + k] += share * score[k];
    }
  }
}
