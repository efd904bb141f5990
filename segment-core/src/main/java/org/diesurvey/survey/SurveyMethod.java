package org.diesurvey.survey;

import java.util.Collections;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.SortedMap;
import java.util.TreeMap;
import org.diesurvey.Supported;

/**
 * How a survey was made.
 *
 * @param software what made it
 * @param settings all settings that influence the result, by name
 * @param nodeNm process node stated by the user, nm
 * @param tileUm side of a tile in um; in px / 1 if there is no scale (see settings)
 */
@Supported
public record SurveyMethod(
    Software software, SortedMap<String, String> settings, OptionalDouble nodeNm, double tileUm) {
  /** Copies the settings. */
  public SurveyMethod {
    settings = Collections.unmodifiableSortedMap(new TreeMap<>((Map<String, String>) settings));
  }
}
