package org.diesurvey.survey;

import java.util.OptionalDouble;
import org.diesurvey.Supported;

/**
 * How a survey was made: all that influences the result beside the photograph and its scale.
 *
 * @param software what made it
 * @param photoPxPerWorkingPx side of a square of photo pixels that were averaged to one, 1 or more
 * @param nodeNm process node stated by the user, nm
 * @param tileUm side of a tile in um; in px if there is no scale
 */
@Supported
public record SurveyMethod(
    Software software, int photoPxPerWorkingPx, OptionalDouble nodeNm, double tileUm) {
  /** Rejects an averaging of less than one pixel. */
  public SurveyMethod {
    if (photoPxPerWorkingPx < 1) {
      throw new IllegalArgumentException("needs 1 px or more, was " + photoPxPerWorkingPx);
    }
  }
}
