package org.diesurvey.classification;

import java.util.List;
import java.util.SortedMap;

/**
 * A trained classifier: standardisation, stages whose probabilities are averaged, and the training
 * data's extent.
 */
final class TileModel {
  private final String name;
  private final List<String> featureNames;
  private final Standardiser standardiser;
  private final List<Stage> stages;
  private final float temperature;
  private final float strangeAt;
  private final RegionConfidence regionConfidence;
  private final SortedMap<String, String> training;

  /**
   * @param name for provenance
   * @param featureNames must equal those of the current schema
   * @param stages at least one
   * @param temperature divides all scores; found on dies left out
   * @param strangeAt mean square of standardised features at the border of the training data
   * @param regionConfidence from tile probabilities to the confidence of a region
   * @param training how the model was made: seeds, counts, versions
   */
  TileModel(
      String name,
      List<String> featureNames,
      Standardiser standardiser,
      List<Stage> stages,
      float temperature,
      float strangeAt,
      RegionConfidence regionConfidence,
      SortedMap<String, String> training) {
    this.name = name;
    this.featureNames = List.copyOf(featureNames);
    this.standardiser = standardiser;
    this.stages = List.copyOf(stages);
    this.temperature = temperature;
    this.strangeAt = strangeAt;
    this.regionConfidence = regionConfidence;
    this.training = java.util.Collections.unmodifiableSortedMap(training);
  }

  String name() {
    return name;
  }

  List<String> featureNames() {
    return featureNames;
  }

  int features() {
    return featureNames.size();
  }

  Standardiser standardiser() {
    return standardiser;
  }

  List<Stage> stages() {
    return stages;
  }

  float temperature() {
    return temperature;
  }

  float strangeAt() {
    return strangeAt;
  }

  SortedMap<String, String> training() {
    return training;
  }

  TileModel withTemperature(float t) {
    return new TileModel(
        name, featureNames, standardiser, stages, t, strangeAt, regionConfidence, training);
  }

  TileModel withRegionConfidence(RegionConfidence c) {
    return new TileModel(
        name, featureNames, standardiser, stages, temperature, strangeAt, c, training);
  }

  RegionConfidence regionConfidence() {
    return regionConfidence;
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

  /** Mean square of the standardised features over its value at the training data's border. */
  float strangeness(float[] z) {
    return meanSquare(z) / strangeAt;
  }

  static float meanSquare(float[] z) {
    float sum = 0;
    for (float v : z) {
      sum += v * v;
    }
    return sum / z.length;
  }
}
