package org.diesurvey.calibration;

/**
 * What a microscope can resolve and how finely it must be sampled. Lengths of light in nm, lengths
 * on the die in um. Numerical apertures 0.01 to 1.7.
 *
 * <p>In reflected light the objective is its own condenser, so {@link #rayleighUm(double, double)}
 * applies with the full aperture.
 */
public final class OpticsLimits {
  /**
   * Pixels per resolved distance in practice, after Inoue 1986, p. 114 (quoted in the table
   * "Optical Resolution vs. Zoom Factor"); the sampling theorem alone asks for 2.
   */
  public static final double PRACTICAL_SAMPLES = 2.3;

  private OpticsLimits() {}

  /** Rayleigh's distance of two points, um: 0.61 lambda / NA, exactly 1.22 lambda / (2 NA). */
  public static double rayleighUm(double wavelengthNm, double aperture) {
    return rayleighUm(wavelengthNm, aperture, aperture);
  }

  /**
   * Rayleigh's distance with a condenser of its own aperture, um: 1.22 lambda / (NA objective + NA
   * condenser).
   */
  public static double rayleighUm(
      double wavelengthNm, double objectiveAperture, double condenserAperture) {
    return 1.22 * um(wavelengthNm) / (checked(objectiveAperture) + checked(condenserAperture));
  }

  /** Abbe's finest grating period, um: lambda / (2 NA). */
  public static double abbeUm(double wavelengthNm, double aperture) {
    return um(wavelengthNm) / (2 * checked(aperture));
  }

  /**
   * Sparrow's distance of two points, um: 0.47 lambda / NA, circular pupil, incoherent light
   * (factor from memory).
   */
  public static double sparrowUm(double wavelengthNm, double aperture) {
    return 0.47 * um(wavelengthNm) / checked(aperture);
  }

  /**
   * Wave-optical depth of field, um: n lambda / NA^2.
   *
   * @param index refractive index between die and objective, 1 for air
   */
  public static double waveDepthOfFieldUm(double wavelengthNm, double aperture, double index) {
    double na = checked(aperture);
    return index * um(wavelengthNm) / (na * na);
  }

  /**
   * Total depth of field, um: n lambda / NA^2 + n e / (M NA), the sum used by the depth-of-field
   * calculator of a microscope maker's teaching pages (MicroscopyU, formula 1).
   *
   * @param index refractive index between die and objective, 1 for air
   * @param magnification from die to detector
   * @param detectorUm smallest distance the detector resolves, um in the image plane
   */
  public static double depthOfFieldUm(
      double wavelengthNm, double aperture, double index, double magnification, double detectorUm) {
    if (!(magnification > 0) || !(detectorUm >= 0)) {
      throw new IllegalArgumentException(
          "magnification must be > 0 and the detector's distance >= 0, were "
              + magnification
              + ", "
              + detectorUm);
    }
    return waveDepthOfFieldUm(wavelengthNm, aperture, index)
        + index * detectorUm / (magnification * aperture);
  }

  /**
   * Coarsest pixel pitch that keeps a resolved distance, um/px.
   *
   * @param resolvedUm distance to be kept, um
   * @param samples pixels per distance: 2 by the sampling theorem, {@link #PRACTICAL_SAMPLES} in
   *     practice
   */
  public static double coarsestPitchUm(double resolvedUm, double samples) {
    if (!(samples >= 2)) {
      throw new IllegalArgumentException(
          "the sampling theorem asks for 2 samples or more, was " + samples);
    }
    return resolvedUm / samples;
  }

  private static double um(double wavelengthNm) {
    if (!(wavelengthNm >= 100 && wavelengthNm <= 2000)) {
      throw new IllegalArgumentException(
          "wavelength must be 100 to 2000 nm, was " + wavelengthNm + " nm");
    }
    return wavelengthNm / 1000;
  }

  private static double checked(double aperture) {
    if (!(aperture >= 0.01 && aperture <= 1.7)) {
      throw new IllegalArgumentException("numerical aperture must be 0.01 to 1.7, was " + aperture);
    }
    return aperture;
  }
}
