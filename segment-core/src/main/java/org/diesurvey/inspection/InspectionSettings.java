package org.diesurvey.inspection;

import java.util.Optional;
import java.util.OptionalDouble;
import org.diesurvey.calibration.Calibration;

/**
 * What the user knows of how the photograph was taken.
 *
 * @param scale pixel pitch, if known
 * @param aperture numerical aperture of the objective, 0.01 to 1.7, if known
 * @param wavelengthNm middle wavelength of the light, 100 to 2000 nm
 * @param nodeNm process node, 3 to 10000 nm, if known
 */
public record InspectionSettings(
    Optional<Calibration> scale,
    OptionalDouble aperture,
    double wavelengthNm,
    OptionalDouble nodeNm) {
  /** Green, the middle of visible light and where eyes and cameras are most sensitive. */
  public static final double GREEN_NM = 550;

  /** Checks the ranges. */
  public InspectionSettings {
    aperture.ifPresent(v -> require("numerical aperture", v, 0.01, 1.7, ""));
    require("wavelength", wavelengthNm, 100, 2000, " nm");
    nodeNm.ifPresent(v -> require("process node", v, 3, 10000, " nm"));
  }

  private static void require(String what, double value, double low, double high, String unit) {
    if (!(value >= low && value <= high)) {
      throw new IllegalArgumentException(
          what + " must be " + low + " to " + high + unit + ", was " + value);
    }
  }

  /** Nothing known, green light. */
  public static InspectionSettings defaults() {
    return new InspectionSettings(
        Optional.empty(), OptionalDouble.empty(), GREEN_NM, OptionalDouble.empty());
  }

  /** The same with a scale. */
  public InspectionSettings withScale(Calibration value) {
    return new InspectionSettings(Optional.of(value), aperture, wavelengthNm, nodeNm);
  }

  /** The same with an aperture. */
  public InspectionSettings withAperture(double value) {
    return new InspectionSettings(scale, OptionalDouble.of(value), wavelengthNm, nodeNm);
  }

  /** The same with another wavelength, nm. */
  public InspectionSettings withWavelengthNm(double value) {
    return new InspectionSettings(scale, aperture, value, nodeNm);
  }

  /** The same with a process node, nm. */
  public InspectionSettings withNodeNm(double value) {
    return new InspectionSettings(scale, aperture, wavelengthNm, OptionalDouble.of(value));
  }
}
