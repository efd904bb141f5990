package org.diesurvey.scoring;

import org.diesurvey.estimates.AmountKind;
import org.diesurvey.estimates.Estimate;

/**
 * One estimate beside the truth.
 *
 * @param die name
 * @param basis what was estimated from: true outlines with or without inner arrays, or a survey
 * @param kind of amount
 * @param truth true amount, above 0
 * @param estimate with its interval
 */
public record EstimateCase(
    String die, Basis basis, AmountKind kind, double truth, Estimate estimate) {

  /** Where the areas came from. */
  public enum Basis {
    /** True outlines of memories with their bit-cell arrays. */
    TRUE_ARRAYS("true outlines, arrays known"),
    /** True outlines of whole memory macros. */
    TRUE_MACROS("true outlines, whole macros"),
    /** Outlines that a survey found. */
    SURVEY("survey");

    private final String words;

    Basis(String words) {
      this.words = words;
    }

    /** For people. */
    public String words() {
      return words;
    }
  }

  /** Whether the interval holds the truth. */
  public boolean covered() {
    return estimate.covers(truth);
  }

  /** Estimate over truth, minus 1. */
  public double relativeError() {
    return estimate.value() / truth - 1;
  }
}
