package org.diesurvey.pipeline;

import java.util.Optional;
import java.util.OptionalInt;
import org.diesurvey.Supported;
import org.diesurvey.preparation.FlatField;

/**
 * What a user states about one photograph besides its scale.
 *
 * @param dieNumber which die to survey, from 1, numbered left to right, then top to bottom; empty
 *     for the largest and most central
 * @param flatField the light, measured on an empty field; empty to estimate it from the picture
 * @param plane which picture of a file that holds several is to be opened, from 1; empty for the
 *     first. For those who open files: a photograph that is open already has its plane
 */
@Supported
public record PhotoOptions(
    OptionalInt dieNumber, Optional<FlatField> flatField, OptionalInt plane) {
  /** Nothing stated. */
  public static final PhotoOptions NONE = new PhotoOptions(OptionalInt.empty(), Optional.empty());

  /** Without a plane. */
  public PhotoOptions(OptionalInt dieNumber, Optional<FlatField> flatField) {
    this(dieNumber, flatField, OptionalInt.empty());
  }

  /** Rejects numbers below 1. */
  public PhotoOptions {
    if (plane.isPresent() && plane.getAsInt() < 1) {
      throw new IllegalArgumentException("planes are numbered from 1, was " + plane.getAsInt());
    }
    if (dieNumber.isPresent() && dieNumber.getAsInt() < 1) {
      throw new IllegalArgumentException("dies are numbered from 1, was " + dieNumber.getAsInt());
    }
  }
}
