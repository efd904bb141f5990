package org.diesurvey.survey;

import java.util.Optional;
import org.diesurvey.Supported;
import org.diesurvey.calibration.Calibration;

/**
 * The scale that the survey used, or the range that the layout suggests where there is none.
 *
 * @param calibration the scale; empty if none was given
 * @param inferred range suggested by the layout when no scale was given; never used for areas
 */
@Supported
public record ScaleRecord(Optional<Calibration> calibration, Optional<InferredRange> inferred) {

  /**
   * A guess at the pixel pitch from the layout itself.
   *
   * @param lowUmPerPx lower end, um/px
   * @param highUmPerPx upper end, um/px
   * @param evidence what the guess rests on, one sentence
   */
  public record InferredRange(double lowUmPerPx, double highUmPerPx, String evidence) {}
}
