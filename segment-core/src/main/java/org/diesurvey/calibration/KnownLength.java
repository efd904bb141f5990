package org.diesurvey.calibration;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.Supported;
import org.diesurvey.quantity.Interval;
import org.diesurvey.quantity.Measured;
import org.diesurvey.quantity.Propagation;
import org.diesurvey.quantity.UncertaintyBudget;
import org.diesurvey.quantity.UncertaintyBudget.Component;
import org.diesurvey.raster.PixelPoint;

/**
 * A pitch with its budget from a length that is known otherwise than by a micrometer.
 *
 * @param umPerPx pitch with standard uncertainty, um/px
 * @param evidence budget and remarks
 */
@Supported
public record KnownLength(Measured umPerPx, CalibrationEvidence evidence) {
  /**
   * Limit of nominal magnifications where none is stated: 5 % (tolerance of ISO 8039 as recalled,
   * from memory).
   */
  public static final double NOMINAL_LIMIT = 0.05;

  private static final double COVERAGE = 0.95;

  /**
   * Two points and their distance.
   *
   * @param from one point, px
   * @param to the other, px
   * @param distanceUm true distance with standard uncertainty, um
   * @param pointPx standard uncertainty of placing one point, px, above 0
   * @throws DieInputException SCALE_INVALID for points that are too close to one another
   */
  public static KnownLength points(
      PixelPoint from, PixelPoint to, Measured distanceUm, double pointPx) {
    double length = Math.hypot(to.x() - from.x(), to.y() - from.y());
    if (!(length >= 10 && length < 1e6) || !(distanceUm.value() > 0) || !(pointPx > 0)) {
      throw new DieInputException(
          Reason.SCALE_INVALID,
          "Two points "
              + length
              + " px apart for a distance of "
              + distanceUm.value()
              + " um give no scale: choose points at least 10 px apart and a distance above 0.");
    }
    double pitch = ScaleArithmetic.umPerUnit(distanceUm.value(), length);
    return of(
        pitch,
        List.of(
            endless("placing of the two points", pitch * Math.sqrt(2) * pointPx / length),
            endless("length of the distance", pitch * distanceUm.relativeUncertainty())),
        false,
        List.of(
            "Two points set by hand: only one direction was measured, and the lens was not checked"
                + " for distortion."));
  }

  /**
   * Camera pixel over magnification: nominal, no calibration.
   *
   * @param cameraPixelUm side of a camera pixel, um
   * @param magnification from die to camera, tube lens included
   * @param limit greatest departure of the magnification from its nominal value, share; all values
   *     within it alike
   */
  public static KnownLength nominal(double cameraPixelUm, double magnification, double limit) {
    if (!(cameraPixelUm > 0 && cameraPixelUm < 1000)
        || !(magnification > 0 && magnification < 10_000)
        || !(limit > 0 && limit < 0.5)) {
      throw new DieInputException(
          Reason.SCALE_INVALID,
          "A camera pixel of "
              + cameraPixelUm
              + " um at a magnification of "
              + magnification
              + " known within "
              + 100 * limit
              + " % gives no scale: state for example --camera-pixel 3.45um --magnification 20.");
    }
    double pitch = ScaleArithmetic.specimenPitchUm(cameraPixelUm, magnification);
    return of(
        pitch,
        List.of(endless("nominal magnification", Propagation.rectangular(limit * pitch))),
        true,
        List.of(
            "NOMINAL: computed from engraved values, nothing was measured. Magnifications are"
                + " nominal; a stage micrometer gives a far better scale."));
  }

  /** A die whose size is known and whose edge was found. */
  public static KnownLength dieSize(Measured umPerPx) {
    List<String> remarks = new ArrayList<>();
    remarks.add(
        "From the size of a die and the die edge found; a size from a document may mean the layout"
            + " without the scribe lane.");
    return of(
        umPerPx.value(),
        List.of(
            endless("die size, die edge and misfit of the sides", umPerPx.standardUncertainty())),
        false,
        remarks);
  }

  private static Component endless(String cause, double contribution) {
    return new Component(cause, contribution, Double.POSITIVE_INFINITY);
  }

  private static KnownLength of(
      double pitch, List<Component> causes, boolean nominal, List<String> remarks) {
    UncertaintyBudget budget = new UncertaintyBudget(causes);
    double expanded = budget.expanded(COVERAGE);
    return new KnownLength(
        new Measured(pitch, budget.combined()),
        new CalibrationEvidence(
            new Interval(pitch - expanded, pitch + expanded),
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            Optional.empty(),
            nominal,
            causes,
            List.of(),
            Optional.empty(),
            OptionalDouble.empty(),
            remarks));
  }
}
