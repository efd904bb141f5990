package org.diesurvey.pipeline;

import org.diesurvey.calibration.Calibration;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.preparation.PreparedDie;

/** The pixel pitch of a photograph from the known size of the die in it. */
public final class DieSizeScale {
  private DieSizeScale() {}

  /**
   * Finds the die and holds it against its size.
   *
   * @throws org.diesurvey.DieInputException if no die edge is found or the sides do not fit
   */
  public static Calibration of(DiePhoto photo, ScaleInput.OfDieSize size) {
    photo.requireContent();
    return Scales.resolve(size, PreparedDie.locate(photo.pixels()), photo.info().fileName())
        .orElseThrow();
  }
}
