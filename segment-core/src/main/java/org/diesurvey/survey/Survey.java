package org.diesurvey.survey;

import java.util.List;
import java.util.Optional;
import org.diesurvey.Supported;
import org.diesurvey.estimates.DieEstimates;
import org.diesurvey.photo.PhotoInfo;

/**
 * Everything that is known of one surveyed photograph; {@code survey.json} is its exact written
 * form, and every report, export, archive row and comparison is made from surveys alone.
 *
 * @param photo the photograph's file
 * @param method software and settings that made the survey
 * @param scale pixel pitch and origin
 * @param die where the die lies
 * @param preparation what was done to the photograph before classification
 * @param regions all regions, largest first within the class order memory, macro, logic, pad ring,
 *     unclear
 * @param totals class totals in the same order
 * @param notices warnings and refusals
 * @param estimates bits, gates and plausible nodes; empty without a scale, and in documents older
 *     than estimates
 */
@Supported
public record Survey(
    PhotoInfo photo,
    SurveyMethod method,
    ScaleRecord scale,
    DieFrame die,
    Preparation preparation,
    List<SurveyRegion> regions,
    List<ClassTotal> totals,
    List<Notice> notices,
    Optional<DieEstimates> estimates) {
  /** Format name in the written form. */
  public static final String FORMAT = "diesurvey-survey";

  /** Version of the written form; readers refuse versions they do not know. */
  public static final int FORMAT_VERSION = 1;

  /** Copies the lists. */
  public Survey {
    regions = List.copyOf(regions);
    totals = List.copyOf(totals);
    notices = List.copyOf(notices);
  }

  /** The same survey with other regions. */
  public Survey withRegions(List<SurveyRegion> other) {
    return new Survey(photo, method, scale, die, preparation, other, totals, notices, estimates);
  }

  /** The same survey with other notices. */
  public Survey withNotices(List<Notice> other) {
    return new Survey(photo, method, scale, die, preparation, regions, totals, other, estimates);
  }

  /** The same survey with estimates. */
  public Survey withEstimates(DieEstimates made) {
    return new Survey(
        photo, method, scale, die, preparation, regions, totals, notices, Optional.of(made));
  }
}
