package org.diesurvey.classification.training;

import java.util.ArrayList;
import java.util.List;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.preparation.edges.DieSide;

/** All tiles of one die, and for those that are clear samples their class and their outline. */
public final class TaughtTiles {
  /** What a tile that is no sample has for a class. */
  public static final int NO_SAMPLE = -1;

  private final FeatureTable features;
  private final List<DieSide> sides;
  private final int[] classes;
  private final int[] regions;

  /**
   * @param classes surface class ordinal of every tile, negative for tiles that are no sample
   * @param regions number of the outline that each sample lies in, from 0 on without gaps
   */
  public TaughtTiles(FeatureTable features, List<DieSide> sides, int[] classes, int[] regions) {
    int n = features.grid().count();
    if (classes.length != n || regions.length != n) {
      throw new IllegalArgumentException(
          classes.length + " classes and " + regions.length + " outlines for " + n + " tiles");
    }
    this.features = features;
    this.sides = sides;
    this.classes = classes.clone();
    this.regions = regions.clone();
  }

  /** The same where it does not matter which outline a sample lies in. */
  public static TaughtTiles ofDie(FeatureTable features, List<DieSide> sides, int[] classes) {
    return new TaughtTiles(features, sides, classes, new int[classes.length]);
  }

  FeatureTable features() {
    return features;
  }

  List<DieSide> sides() {
    return sides;
  }

  /** Number of outlines. */
  int regionCount() {
    int most = -1;
    for (int t = 0; t < regions.length; t++) {
      most = classes[t] < 0 ? most : Math.max(most, regions[t]);
    }
    return most + 1;
  }

  /** The tiles of one outline that are samples. */
  List<Integer> samples(int region) {
    List<Integer> out = new ArrayList<>();
    for (int t = 0; t < regions.length; t++) {
      if (classes[t] >= 0 && regions[t] == region) {
        out.add(t);
      }
    }
    return out;
  }

  /** Class ordinal of a tile, negative where it is no sample. */
  int label(int tile) {
    return classes[tile];
  }

  /** The classes of all tiles. */
  int[] labels() {
    return classes.clone();
  }
}
