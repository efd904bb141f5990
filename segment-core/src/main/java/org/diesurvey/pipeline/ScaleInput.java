package org.diesurvey.pipeline;

import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.Supported;
import org.diesurvey.calibration.Calibration;

/** What the user knows of a photograph's scale. */
@Supported
public sealed interface ScaleInput {

  /** A pixel pitch. */
  record Known(Calibration calibration) implements ScaleInput {}

  /**
   * The die's size; the pitch follows from the die edge found in the photograph. Sides may be given
   * in either order.
   *
   * @param widthMm one side, mm, above 0
   * @param heightMm the other side, mm, above 0
   * @param standardUncertaintyMm of each side, mm, k = 1
   */
  record OfDieSize(double widthMm, double heightMm, double standardUncertaintyMm)
      implements ScaleInput {
    /** Largest side accepted, mm: beyond a wafer-size sensor there is no die. */
    private static final double LARGEST_MM = 120;

    /** Rejects sides that no die has. */
    public OfDieSize {
      boolean plausible =
          widthMm > 0.05 && heightMm > 0.05 && widthMm < LARGEST_MM && heightMm < LARGEST_MM;
      if (!plausible || !(standardUncertaintyMm >= 0) || standardUncertaintyMm >= widthMm) {
        throw new DieInputException(
            Reason.SCALE_INVALID,
            "The die size "
                + widthMm
                + " x "
                + heightMm
                + " mm is not the size of a die: state both sides in millimetres, between 0.05 and"
                + " 120, for example 2.1x1.7.");
      }
    }
  }

  /** Nothing is known: regions and shares only. */
  record None() implements ScaleInput {}

  /** Nothing is known. */
  ScaleInput NONE = new None();
}
