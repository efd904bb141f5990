package org.diesurvey.classification.model;

import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * A trained classifier.
 *
 * @param name for provenance
 * @param featureNames must equal those of the current schema
 * @param first judges a tile by its own features
 * @param second judges it again by what the first made of its surroundings; a model may lack it
 * @param blocks judges blocks of tiles as a whole; a model may lack it
 * @param strangeAt mean square of standardised features at the border of the training data
 * @param familiar tells whether a whole picture is like the training dies
 * @param regionConfidence from tile probabilities to the confidence of a region
 * @param taught what teaching added; empty in a model that was only trained
 * @param training how the model was made: seeds, counts, versions
 */
public record TileModel(
    String name,
    List<String> featureNames,
    Ensemble first,
    Optional<Ensemble> second,
    Optional<Ensemble> blocks,
    float strangeAt,
    PictureFamiliarity familiar,
    RegionConfidence regionConfidence,
    Optional<TaughtPart> taught,
    SortedMap<String, String> training) {
  public TileModel {
    featureNames = List.copyOf(featureNames);
    training = java.util.Collections.unmodifiableSortedMap(new TreeMap<>(training));
  }

  /** A model that judges no blocks and that nobody taught. */
  public TileModel(
      String name,
      List<String> featureNames,
      Ensemble first,
      Optional<Ensemble> second,
      float strangeAt,
      PictureFamiliarity familiar,
      RegionConfidence regionConfidence,
      SortedMap<String, String> training) {
    this(
        name,
        featureNames,
        first,
        second,
        Optional.empty(),
        strangeAt,
        familiar,
        regionConfidence,
        Optional.empty(),
        training);
  }

  public TileModel withTaught(TaughtPart part) {
    return with(name, first, second, blocks, regionConfidence, Optional.of(part), training);
  }

  /** The model with the classifiers that judge a picture of these mean standardised features. */
  public TileModel forPicture(float[] mean) {
    return taught.map(t -> towardsTaught(t.share(familiar, mean))).orElse(this);
  }

  /** Without a taught part: its weights in the place of the old ones, the share of the way. */
  public TileModel towardsTaught(double share) {
    if (taught.isEmpty()) {
      return this;
    }
    TileModel m = withFirst(Ensemble.between(first, taught.get().first(), share));
    return second.isEmpty()
        ? m
        : m.withSecond(
            Ensemble.between(second.get(), taught.get().second().orElseThrow(), share), training);
  }

  /** With another first classifier and nothing taught. */
  public TileModel withFirst(Ensemble e) {
    return with(name, e, second, blocks, regionConfidence, Optional.empty(), training);
  }

  /** With another second classifier and nothing taught. */
  public TileModel withSecond(Ensemble e, SortedMap<String, String> facts) {
    return with(name, first, Optional.of(e), blocks, regionConfidence, Optional.empty(), facts);
  }

  /** With another classifier of blocks and nothing taught. */
  public TileModel withBlocks(Ensemble e, SortedMap<String, String> facts) {
    return with(name, first, second, Optional.of(e), regionConfidence, Optional.empty(), facts);
  }

  /** The same with another name and record. */
  public TileModel named(String other, SortedMap<String, String> facts) {
    return with(other, first, second, blocks, regionConfidence, taught, facts);
  }

  TileModel withRegionConfidence(RegionConfidence c) {
    return with(name, first, second, blocks, c, taught, training);
  }

  /** The same features and the same measures of what is familiar, all else as said. */
  private TileModel with(
      String otherName,
      Ensemble own,
      Optional<Ensemble> around,
      Optional<Ensemble> whole,
      RegionConfidence confidence,
      Optional<TaughtPart> part,
      SortedMap<String, String> facts) {
    return new TileModel(
        otherName, featureNames, own, around, whole, strangeAt, familiar, confidence, part, facts);
  }

  int features() {
    return featureNames.size();
  }

  /** Mean square of the standardised features over its value at the training data's border. */
  float strangeness(float[] z) {
    return meanSquare(z) / strangeAt;
  }

  public static float meanSquare(float[] z) {
    float sum = 0;
    for (float v : z) {
      sum += v * v;
    }
    return sum / z.length;
  }
}
