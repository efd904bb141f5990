package org.diesurvey.pipeline;

import java.util.Optional;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.preparation.PreparedDie;

/** The pixel pitch of a photograph from what is known of it, without surveying it. */
public final class ScaleOfPhoto {
  private ScaleOfPhoto() {}

  /**
   * Empty where nothing is known. A die size is turned into a pitch with the die edge found.
   *
   * @throws org.diesurvey.DieInputException DIE_EDGE_NOT_FOUND or SCALE_CONTRADICTORY, for a die
   *     size only
   */
  public static Optional<Calibration> of(ScaleInput known, DiePhoto photo) {
    if (known instanceof ScaleInput.None) {
      return Optional.empty();
    }
    if (known instanceof ScaleInput.Known pitch) {
      return Optional.of(pitch.calibration());
    }
    return Scales.resolve(known, PreparedDie.locate(photo.pixels()), photo.info().fileName());
  }
}
