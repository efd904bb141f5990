package org.diesurvey.survey;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SortedMap;
import java.util.TreeMap;
import org.diesurvey.Supported;
import org.diesurvey.estimates.DieEstimates;
import org.diesurvey.photo.PhotoInfo;

/**
 * Everything that is known of one surveyed photograph; {@code survey.json} is its exact written
 * form, and every report, export, archive row and comparison is made from surveys alone.
 *
 * @param software what made the survey
 * @param photo the photograph's file
 * @param settings all settings that influence the result, by name
 * @param scale pixel pitch and origin
 * @param die where the die lies
 * @param nodeNm process node stated by the user, nm
 * @param tileUm side of a tile in um; in px / 1 if there is no scale (see settings)
 * @param preparation what was done to the photograph before classification
 * @param damagedShare share of the die masked as residue, scratches, glare or burns, 0 to 1; the
 *     sum over the kinds in the preparation
 * @param regions all regions, largest first within the class order memory, macro, logic, pad ring,
 *     unclear
 * @param totals class totals in the same order
 * @param notices warnings and refusals
 * @param estimates bits, gates and plausible nodes; empty without a scale, and in documents older
 *     than estimates
 */
@Supported
public record Survey(
    Software software,
    PhotoInfo photo,
    SortedMap<String, String> settings,
    ScaleRecord scale,
    DieFrame die,
    OptionalDouble nodeNm,
    double tileUm,
    Preparation preparation,
    double damagedShare,
    List<SurveyRegion> regions,
    List<ClassTotal> totals,
    List<Notice> notices,
    Optional<DieEstimates> estimates) {
  /** Format name in the written form. */
  public static final String FORMAT = "diesurvey-survey";

  /** Version of the written form; readers refuse versions they do not know. */
  public static final int FORMAT_VERSION = 1;

  /** Copies the collections. */
  public Survey {
    settings =
        java.util.Collections.unmodifiableSortedMap(new TreeMap<>((Map<String, String>) settings));
    regions = List.copyOf(regions);
    totals = List.copyOf(totals);
    notices = List.copyOf(notices);
  }

  /** A survey without estimates. */
  public Survey(
      Software software,
      PhotoInfo photo,
      SortedMap<String, String> settings,
      ScaleRecord scale,
      DieFrame die,
      OptionalDouble nodeNm,
      double tileUm,
      Preparation preparation,
      double damagedShare,
      List<SurveyRegion> regions,
      List<ClassTotal> totals,
      List<Notice> notices) {
    this(
        software,
        photo,
        settings,
        scale,
        die,
        nodeNm,
        tileUm,
        preparation,
        damagedShare,
        regions,
        totals,
        notices,
        Optional.empty());
  }

  /** The same survey with other notices. */
  public Survey withNotices(List<Notice> other) {
    return new Survey(
        software,
        photo,
        settings,
        scale,
        die,
        nodeNm,
        tileUm,
        preparation,
        damagedShare,
        regions,
        totals,
        other,
        estimates);
  }

  /** The same survey with estimates. */
  public Survey withEstimates(DieEstimates made) {
    return new Survey(
        software,
        photo,
        settings,
        scale,
        die,
        nodeNm,
        tileUm,
        preparation,
        damagedShare,
        regions,
        totals,
        notices,
        Optional.of(made));
  }
}
