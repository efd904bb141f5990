package org.diesurvey.pipeline;

import java.util.Optional;
import java.util.function.Supplier;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.classification.model.TileClassifier;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.features.damage.DamageTuning;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.preparation.DieLocation;

/**
 * All that a survey takes from the pixels, before regions are formed of it.
 *
 * @param photo the photograph
 * @param options which die, and the light
 * @param chosen where the die is
 * @param calibration empty without a scale
 * @param views the die with its tiles, their features and what they may be
 */
record DieReading(
    DiePhoto photo,
    PhotoOptions options,
    ChosenDie chosen,
    Optional<Calibration> calibration,
    PitchHypotheses views)
    implements AutoCloseable {
  /**
   * Locates the die, extracts its features and classifies its tiles.
   *
   * @throws org.diesurvey.DieInputException if the photograph cannot be surveyed
   */
  static DieReading of(
      DiePhoto photo,
      ScaleInput input,
      PhotoOptions options,
      Supplier<TileClassifier> classifier,
      double tileUm,
      Tuning tuning,
      Laps laps) {
    DamageTuning damage = tuning.damage();
    options.flatField().ifPresent(f -> f.requireFits(photo.info()));
    photo.requireContent();
    laps.done("read");
    ChosenDie chosen = ChosenDie.of(photo, options, tuning.edges());
    DieLocation frame = chosen.frame();
    laps.done("locate");
    Optional<Calibration> calibration = Scales.resolve(input, frame, photo.info().fileName());
    laps.done("scale");
    // A flat field divides levels that are proportional to the light.
    PixelSource pixels = options.flatField().isPresent() ? photo.proportional() : photo.pixels();
    PitchHypotheses views;
    if (calibration.isPresent()) {
      double pitch = calibration.get().umPerPx().value();
      TiledDie tiled = TiledDie.of(pixels, frame, pitch, tileUm, options.flatField());
      FeatureTable features = FeatureTable.extract(tiled.die(), tiled.grid(), damage);
      laps.done("features");
      views =
          PitchHypotheses.withKnownPitch(
              classifier.get(),
              pitch,
              tiled,
              features,
              classifier.get().classify(features, frame.realEdges()),
              damage);
    } else {
      views =
          PitchHypotheses.of(pixels, frame, classifier.get(), tileUm, options.flatField(), damage);
      laps.done("features");
    }
    laps.done("classification");
    return new DieReading(photo, options, chosen, calibration, views);
  }

  /** Gives scratch files of the features back. */
  @Override
  public void close() {
    views.features().close();
  }
}
