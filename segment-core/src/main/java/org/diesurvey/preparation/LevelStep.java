package org.diesurvey.preparation;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.diesurvey.photo.Levels;

/** Says what was done to the levels of a photograph before anything else. */
public final class LevelStep {
  private LevelStep() {}

  /** The step, unless the levels are used as they are stored. */
  public static Optional<PreparationStep> of(Levels levels) {
    if (levels.asStored()) {
      return Optional.empty();
    }
    List<String> done = new ArrayList<>();
    if (levels.bits() < levels.storedBits()) {
      done.add(
          String.format(
              Locale.ROOT,
              "%d of the %d bits of a sample are in use, so white is level %d",
              levels.bits(),
              levels.storedBits(),
              (1 << levels.bits()) - 1));
    }
    if (levels.stretched()) {
      done.add(
          String.format(
              Locale.ROOT,
              "the picture uses the levels from %.0f to %.0f %%, which were spread over the scale",
              100 * levels.low(),
              100 * levels.high()));
    }
    String sentence = String.join("; ", done) + ".";
    return Optional.of(
        PreparationStep.of(
                PreparationStep.Kind.LEVELS,
                Character.toUpperCase(sentence.charAt(0)) + sentence.substring(1))
            .with("bits_in_use", levels.bits())
            .with("bits_stored", levels.storedBits())
            .with("low_share", levels.low())
            .with("high_share", levels.high())
            .with("stretched", levels.stretched() ? 1 : 0));
  }
}
