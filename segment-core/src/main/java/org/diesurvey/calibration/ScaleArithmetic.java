package org.diesurvey.calibration;

/** The arithmetic of bringing a length standard to a pixel pitch. Pure numbers, no uncertainty. */
public final class ScaleArithmetic {
  private ScaleArithmetic() {}

  /**
   * Length of one counted unit (a pixel, an eyepiece division), um: the known length over the units
   * that it covers, measured between the same edge of two lines.
   *
   * @param lengthUm known length on the die side, um
   * @param units how many units cover it
   */
  public static double umPerUnit(double lengthUm, double units) {
    return positive("length", lengthUm) / positive("number of units", units);
  }

  /**
   * Division of a stage micrometer, um. Scales of 1 mm in 100, 2 mm in 200 and 10 mm in 100 parts
   * all exist: read the engraving, never assume.
   *
   * @param lengthMm engraved length, mm
   * @param divisions number of divisions on that length
   */
  public static double divisionUm(double lengthMm, int divisions) {
    return umPerUnit(1000 * lengthMm, divisions);
  }

  /**
   * The pitch after a change of objective, from nominal magnifications only. Nominal values are
   * engraved within a few percent, so the result is an estimate and no calibration: a calibration
   * belongs to one objective.
   *
   * @param umPerUnit pitch with the first objective
   * @param fromMagnification nominal magnification of the first objective
   * @param toMagnification nominal magnification of the second objective
   */
  public static double afterObjectiveChange(
      double umPerUnit, double fromMagnification, double toMagnification) {
    return positive("pitch", umPerUnit)
        * positive("magnification", fromMagnification)
        / positive("magnification", toMagnification);
  }

  /**
   * Pixel pitch on the die from the camera's own pixels, um/px.
   *
   * @param cameraPixelUm side of a camera pixel, um
   * @param magnification from die to camera, tube lens included
   */
  public static double specimenPitchUm(double cameraPixelUm, double magnification) {
    return positive("camera pixel", cameraPixelUm) / positive("magnification", magnification);
  }

  private static double positive(String what, double value) {
    if (!(value > 0) || Double.isInfinite(value)) {
      throw new IllegalArgumentException(what + " must be finite and > 0, was " + value);
    }
    return value;
  }
}
