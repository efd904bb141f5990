package org.diesurvey.synthetic;

/**
 * Microscope, light and camera of one photo.
 *
 * @param numericalAperture 0.2..0.95
 * @param defocusUm standard deviation of the defocus blur in the middle of the field
 * @param defocusTilt growth of the blur towards one side, share
 * @param unevenness amplitude of the slow brightness change
 * @param vignetting darkening at the corners
 * @param filmNm amplitude of the film thickness change
 * @param filmAmplitude brightness amplitude of its fringes
 * @param seamGain gain step between stitched frames
 * @param seamShiftPx shift between stitched frames
 * @param framePx side of a stitched frame; 0 for one frame
 * @param electrons full-well capacity, sets the shot noise
 * @param readNoise electrons
 * @param exposure gain
 * @param gamma exponent of the tone curve
 * @param sharpening camera sharpening, 0..1
 * @param jpegQuality 0 where the photo was never compressed
 */
public record Optics(
    double numericalAperture,
    double defocusUm,
    double defocusTilt,
    double unevenness,
    double vignetting,
    double filmNm,
    double filmAmplitude,
    double seamGain,
    double seamShiftPx,
    int framePx,
    double electrons,
    double readNoise,
    double exposure,
    double gamma,
    double sharpening,
    int jpegQuality) {
  /** Mid wavelengths of the colour channels in um: red 0.62, green 0.55, blue 0.46. */
  static double wavelengthUm(int channel) {
    return channel == 0 ? 0.62 : channel == 1 ? 0.55 : 0.46;
  }

  /**
   * Standard deviation of the Gaussian nearest to the diffraction spot of a wide-field microscope,
   * 0.21 lambda / NA (Zhang, Zerubia, Olivo-Marin, Applied Optics 46 (2007) 1819; from memory),
   * joined with the defocus.
   */
  double blurUm(int channel) {
    double spot = 0.21 * wavelengthUm(channel) / numericalAperture;
    return Math.sqrt(spot * spot + defocusUm * defocusUm);
  }

  static Optics draw(
      Dice dice, double umPerPx, double severity, Reflectance surface, boolean showpiece) {
    // An objective whose spot is between 0.35 and 2 pixels: undersampled to oversampled.
    double na = 0.21 * 0.55 / (umPerPx * dice.logUniform(0.3, 1.3));
    na = Math.max(0.2, Math.min(0.95, na));
    double blur = dice.chance(0.45) ? 0 : umPerPx * Math.abs(dice.normal()) * 0.5 * severity;
    if (showpiece) {
      na = 0.5;
      blur = 0;
    }
    boolean stitched = dice.chance(0.5);
    double electrons = dice.logUniform(3000, 25000) / Math.max(0.3, severity);
    // The operator exposes for the die: its mean lands on a middling tone.
    double gamma = dice.uniform(0.55, 1.1);
    double tone = showpiece ? 0.48 : dice.uniform(0.2, 0.62);
    double mean = surface.field().green() + 0.35 * surface.diffusion().green();
    double exposure = StrictMath.pow(tone, 1 / gamma) / mean;
    return new Optics(
        na,
        blur,
        dice.chance(0.3) ? dice.uniform(0, 1.2) * severity : 0,
        dice.uniform(0, 0.2) * severity,
        dice.uniform(0, 0.2) * severity,
        (dice.chance(0.12) ? dice.uniform(90, 420) : dice.uniform(5, 90)) * severity,
        dice.uniform(0, 0.11) * severity,
        stitched ? dice.uniform(0, 0.03) * severity : 0,
        stitched ? dice.uniform(0, 1.2) * severity : 0,
        stitched ? dice.between(700, 1900) : 0,
        electrons,
        dice.uniform(4, 25),
        exposure,
        gamma,
        dice.chance(0.45) ? dice.uniform(0.1, 0.9) : 0,
        dice.chance(0.75) ? dice.between(75, 95) : 0);
  }
}
