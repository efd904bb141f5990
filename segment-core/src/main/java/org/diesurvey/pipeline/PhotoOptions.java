package org.diesurvey.pipeline;

import java.util.Optional;
import java.util.OptionalInt;
import org.diesurvey.preparation.FlatField;

/**
 * What a user states about one photograph besides its scale.
 *
 * @param dieNumber which die to survey, from 1, numbered left to right, then top to bottom; empty
 *     for the largest and most central
 * @param flatField the light, measured on an empty field; empty to estimate it from the picture
 */
public record PhotoOptions(OptionalInt dieNumber, Optional<FlatField> flatField) {
  /** Nothing stated. */
  public static final PhotoOptions NONE = new PhotoOptions(OptionalInt.empty(), Optional.empty());

  /** Rejects numbers below 1. */
  public PhotoOptions {
    if (dieNumber.isPresent() && dieNumber.getAsInt() < 1) {
      throw new IllegalArgumentException("dies are numbered from 1, was " + dieNumber.getAsInt());
    }
  }
}
