package org.diesurvey.synthetic;

/**
 * Draws photos of stage micrometers: any rotation, 0.05 to 2 um per pixel, bright or dark ground,
 * longer lines or none, partial scales, blur, noise, dirt, uneven light, compression, and in some
 * of them mild lens distortion. Nothing here copies a real product; the proportions (100 divisions
 * of 10 um, longer 5th and 10th lines) are common practice, no source.
 */
public final class MicrometerDrawing {
  private MicrometerDrawing() {}

  /** Draws the photo of a seed; the same seed gives the same bytes. */
  public static DrawnMicrometer draw(long seed) {
    Dice dice = new Dice(seed).child("micrometer");
    Dice form = dice.child("form");
    double pitch = form.logUniform(0.05, 2);
    double division = division(form, pitch);
    int tiers = form.weighted(0.7, 0.15, 0.15);
    double error = form.chance(0.5) ? 0 : division * form.uniform(0, 0.004);
    int divisions = form.chance(0.8) ? 100 : form.pickInt(50, 200);
    MicrometerScale scale =
        new MicrometerScale(dice.child("scale"), division, divisions, tiers == 0, tiers < 2, error);
    Dice camera = dice.child("camera");
    int w = camera.between(1200, 2200);
    int h = (int) (w * camera.uniform(0.65, 0.8));
    double divisionPx = division / pitch;
    // Diffraction and defocus: at least half a pixel, at most what still parts the lines.
    double blurPx = camera.logUniform(0.45, Math.max(0.6, Math.min(9, 0.2 * divisionPx)));
    double distortion = camera.chance(0.25) ? camera.signed(camera.uniform(0.0005, 0.004)) : 0;
    double angle = camera.uniform(0, 180);
    MicrometerPhoto photo =
        new MicrometerPhoto(scale, w, h, pitch, angle, blurPx, distortion, dice.child("place"));
    return photo.take(seed, dice.child("light"), tiers, error);
  }

  private static double division(Dice form, double pitch) {
    if (pitch < 0.2 && form.chance(0.2)) {
      return 5;
    }
    return pitch > 1 && form.chance(0.4) ? form.pickInt(50, 100) : 10;
  }
}
