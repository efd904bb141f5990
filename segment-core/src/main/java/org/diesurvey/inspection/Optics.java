package org.diesurvey.inspection;

import java.util.Optional;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.calibration.OpticsLimits;

/**
 * What the objective can resolve, and whether the camera samples it finely enough.
 *
 * @param aperture numerical aperture
 * @param wavelengthNm of the light
 * @param rayleighUm Rayleigh's distance of two points
 * @param abbeUm Abbe's finest grating period
 * @param depthOfFieldUm wave-optical depth of field, n lambda / NA2
 * @param index refractive index between die and objective that was assumed: 1 in air, 1.515 for an
 *     aperture above 1, which needs immersion oil (ISO 8036: 1.518 at 546 nm; value from memory)
 * @param coarsestPitchUm coarsest pixel pitch that keeps Rayleigh's distance: half of it
 * @param practicalPitchUm the same with 2.3 pixels in the distance
 * @param sampling how the photograph's pitch compares; empty without a scale
 */
public record Optics(
    double aperture,
    double wavelengthNm,
    double rayleighUm,
    double abbeUm,
    double depthOfFieldUm,
    double index,
    double coarsestPitchUm,
    double practicalPitchUm,
    Optional<Sampling> sampling) {
  /** Pixel pitch against what the objective resolves. */
  public enum Sampling {
    /** 2.3 pixels or more in Rayleigh's distance. */
    FINE_ENOUGH,
    /** 2 to 2.3 pixels: the sampling theorem holds, barely. */
    JUST_ENOUGH,
    /** Below 2 pixels: the camera loses what the objective resolves, and lattices may beat. */
    TOO_COARSE
  }

  /** The limits of an objective. */
  static Optics of(double aperture, double wavelengthNm, Optional<Calibration> scale) {
    double index = aperture > 1 ? 1.515 : 1;
    double rayleigh = OpticsLimits.rayleighUm(wavelengthNm, aperture);
    double coarsest = OpticsLimits.coarsestPitchUm(rayleigh, 2);
    double practical = OpticsLimits.coarsestPitchUm(rayleigh, OpticsLimits.PRACTICAL_SAMPLES);
    return new Optics(
        aperture,
        wavelengthNm,
        rayleigh,
        OpticsLimits.abbeUm(wavelengthNm, aperture),
        OpticsLimits.waveDepthOfFieldUm(wavelengthNm, aperture, index),
        index,
        coarsest,
        practical,
        scale.map(c -> sampling(c.umPerPx().value(), coarsest, practical)));
  }

  private static Sampling sampling(double pitchUm, double coarsestUm, double practicalUm) {
    if (pitchUm <= practicalUm) {
      return Sampling.FINE_ENOUGH;
    }
    return pitchUm <= coarsestUm ? Sampling.JUST_ENOUGH : Sampling.TOO_COARSE;
  }
}
