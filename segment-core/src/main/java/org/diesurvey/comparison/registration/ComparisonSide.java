package org.diesurvey.comparison.registration;

import java.util.Optional;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.Supported;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.pipeline.SurveyResult;
import org.diesurvey.preparation.FlatField;
import org.diesurvey.survey.Survey;

/**
 * One side of a comparison: a survey and the photograph that it was made from. The photograph stays
 * open and is closed by the caller.
 *
 * @param survey of the photograph
 * @param photo open
 * @param flatField the empty field that the survey measured the light on; empty if it did not
 * @param tiles what the survey judged of every tile; judged again where it is not at hand
 */
@Supported
public record ComparisonSide(
    Survey survey,
    DiePhoto photo,
    Optional<FlatField> flatField,
    Optional<TileProbabilities> tiles) {
  /**
   * Refuses a photograph, or an empty field, that the survey was not made from.
   *
   * @throws DieInputException if the SHA-256 differ, or one of them is missing
   */
  public ComparisonSide {
    String surveyed = survey.photo().sha256();
    if (!surveyed.equals(photo.info().sha256())) {
      throw new DieInputException(
          Reason.PHOTO_ALTERED,
          photo.info().fileName()
              + " is not the photograph that was surveyed: its SHA-256 begins with "
              + photo.info().sha256().substring(0, 12)
              + ", the survey names "
              + surveyed.substring(0, 12)
              + ": find the original file, or survey this one.");
    }
    Optional<String> light = survey.preparation().flatField().map(f -> f.sha256());
    if (!light.equals(flatField.map(f -> f.info().sha256()))) {
      throw new DieInputException(
          Reason.PHOTO_ALTERED,
          photo.info().fileName()
              + light
                  .map(sha -> " was surveyed with an empty field, SHA-256 " + sha.substring(0, 12))
                  .orElse(" was surveyed without an empty field")
              + ": compare it with the same light, or survey it again.");
    }
  }

  /** A survey without an empty field that was read from its file. */
  public ComparisonSide(Survey survey, DiePhoto photo) {
    this(survey, photo, Optional.empty(), Optional.empty());
  }

  /** A survey that was just made without an empty field. */
  public ComparisonSide(SurveyResult made, DiePhoto photo) {
    this(made.survey(), photo, Optional.empty(), Optional.of(made.tiles()));
  }
}
