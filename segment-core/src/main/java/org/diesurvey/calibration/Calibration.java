package org.diesurvey.calibration;

import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.Supported;
import org.diesurvey.quantity.Measured;

/**
 * The pixel pitch of a photograph with its standard uncertainty and how it was obtained.
 *
 * @param umPerPx micrometres per pixel, 0.01 to 100, standard uncertainty smaller than the value
 * @param origin how the pitch came to be known
 * @param note one line for the record: the words of the user, the file's name, the tag
 */
@Supported
public record Calibration(Measured umPerPx, ScaleOrigin origin, String note) {
  /** Finest pitch accepted, um/px: below half a wavelength by more than an order of magnitude. */
  public static final double FINEST_UM_PER_PX = 0.01;

  /** Coarsest pitch accepted, um/px: a bond pad would be smaller than a pixel. */
  public static final double COARSEST_UM_PER_PX = 100;

  /** The note of a pitch of which the user said no more. */
  public static final String STATED_BY_USER = "stated by the user";

  /** Rejects pitches that no microscope photograph of a die has. */
  public Calibration {
    double v = umPerPx.value();
    if (!(v >= FINEST_UM_PER_PX && v <= COARSEST_UM_PER_PX)) {
      throw new DieInputException(
          Reason.SCALE_INVALID,
          "The scale is "
              + v
              + " um/px, but a die photograph lies between 0.01 and 100 um/px: state the width of"
              + " one pixel on the die in micrometres.");
    }
    if (umPerPx.standardUncertainty() >= v) {
      throw new DieInputException(
          Reason.SCALE_INVALID,
          "The scale's uncertainty, "
              + umPerPx.standardUncertainty()
              + " um/px, is as large as the scale itself, "
              + v
              + " um/px: state the standard uncertainty of the pixel pitch.");
    }
  }

  /**
   * A pitch stated by the user.
   *
   * @param umPerPx micrometres per pixel
   * @param standardUncertainty of the pitch, um/px, k = 1
   */
  public static Calibration ofPixelPitch(double umPerPx, double standardUncertainty) {
    if (!Double.isFinite(umPerPx)
        || !(standardUncertainty >= 0)
        || Double.isInfinite(standardUncertainty)) {
      throw new DieInputException(
          Reason.SCALE_INVALID,
          "The scale "
              + umPerPx
              + " +- "
              + standardUncertainty
              + " um/px is not a pair of finite numbers with an uncertainty of 0 or more: state it"
              + " as 0.5 or 0.5+-0.002.");
    }
    return new Calibration(
        new Measured(umPerPx, standardUncertainty), ScaleOrigin.STATED, STATED_BY_USER);
  }
}
