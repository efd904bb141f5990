package org.diesurvey.calibration;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.diesurvey.Supported;
import org.diesurvey.quantity.Interval;
import org.diesurvey.quantity.Measured;
import org.diesurvey.quantity.UncertaintyBudget.Component;

/**
 * What a calibrated pitch rests on.
 *
 * @param interval95 interval that holds the true pitch with a probability of 95 %, um/px
 * @param effectiveDegreesOfFreedom of the standard uncertainty; empty where infinite
 * @param divisionUm length of a division as stated, um, if a micrometer was read
 * @param divisionTolerance how exact the division is, in words, if a micrometer was read
 * @param nominal whether the pitch comes from nominal values only, without any measurement
 * @param budget causes of the uncertainty, contributions in um/px
 * @param photos the photographs read, in the order given
 * @param axes pitch along both axes of the camera, if measured
 * @param birgeRatio how much the photographs differ over what their uncertainties allow, if several
 * @param remarks sentences for the person who uses the file
 */
@Supported
public record CalibrationEvidence(
    Interval interval95,
    OptionalDouble effectiveDegreesOfFreedom,
    OptionalDouble divisionUm,
    Optional<String> divisionTolerance,
    boolean nominal,
    List<Component> budget,
    List<PhotoLine> photos,
    Optional<Axes> axes,
    OptionalDouble birgeRatio,
    List<String> remarks) {
  /** Copies the lists. */
  public CalibrationEvidence {
    budget = List.copyOf(budget);
    photos = List.copyOf(photos);
    remarks = List.copyOf(remarks);
  }

  /**
   * One photograph of a micrometer.
   *
   * @param file name without folders
   * @param sha256 of the file, 64 lower-case hex digits
   * @param umPerPx pitch across its lines with what this photograph alone contributes, um/px
   * @param lines division lines used
   * @param rotationDeg direction of the scale, degrees clockwise from the rows, -90 to 90
   * @param scatterPx standard deviation of the lines about equal steps, px
   */
  public record PhotoLine(
      String file,
      String sha256,
      Measured umPerPx,
      int lines,
      double rotationDeg,
      double scatterPx) {}

  /**
   * Pitch along the rows and along the columns of the picture.
   *
   * @param xUmPerPx along the rows, um/px
   * @param yUmPerPx along the columns, um/px
   */
  public record Axes(Measured xUmPerPx, Measured yUmPerPx) {
    /** Pitch along x over pitch along y, minus 1. */
    public Measured anisotropy() {
      Measured ratio = xUmPerPx.dividedBy(yUmPerPx);
      return new Measured(ratio.value() - 1, ratio.standardUncertainty());
    }
  }

  /** Division lines used in all photographs. */
  public int lines() {
    return photos.stream().mapToInt(PhotoLine::lines).sum();
  }
}
