package org.diesurvey.preparation;

import java.util.Collections;
import java.util.SortedMap;
import java.util.TreeMap;
import org.diesurvey.Supported;

/**
 * One thing that was done to a photograph before it was classified.
 *
 * @param id stable identifier, lower case with hyphens, for example "die-edge"
 * @param sentence what was done and found, for people
 * @param figures the numbers in it by name; the unit ends the name
 */
@Supported
public record PreparationStep(String id, String sentence, SortedMap<String, Double> figures) {
  /** Copies the figures. */
  public PreparationStep {
    figures = Collections.unmodifiableSortedMap(new TreeMap<>(figures));
  }

  /** A step without figures. */
  static PreparationStep of(String id, String sentence) {
    return new PreparationStep(id, sentence, new TreeMap<>());
  }

  /** The same step with one figure more. */
  PreparationStep with(String name, double value) {
    SortedMap<String, Double> more = new TreeMap<>(figures);
    more.put(name, value);
    return new PreparationStep(id, sentence, more);
  }
}
