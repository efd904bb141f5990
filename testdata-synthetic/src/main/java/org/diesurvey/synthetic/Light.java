package org.diesurvey.synthetic;

/** Uneven light, vignetting and the fringes of a film of varying thickness. */
final class Light {
  private static final int STEP = 16;

  /** Refractive index of silicon oxide near 550 nm (from memory). */
  private static final double OXIDE_INDEX = 1.46;

  private final Optics optics;
  private final SmoothField slow;
  private final SmoothField film;
  private final double phase;
  private final double slopeX;
  private final double slopeY;
  private final double centreX;
  private final double centreY;

  Light(Optics optics, Dice dice, int w, int h) {
    this.optics = optics;
    double size = Math.max(w, h);
    this.slow = new SmoothField(dice.child("slow"), w, h, size * dice.uniform(0.3, 0.8));
    this.film = new SmoothField(dice.child("film"), w, h, size * dice.logUniform(0.06, 0.5));
    this.phase = dice.uniform(0, 2 * Math.PI);
    this.slopeX = dice.normal() * 0.6;
    this.slopeY = dice.normal() * 0.6;
    this.centreX = 0.5 + 0.12 * dice.normal();
    this.centreY = 0.5 + 0.12 * dice.normal();
  }

  private double at(double x, double y, int w, int h, int k) {
    double u = x / w;
    double v = y / h;
    double r2 = (u - centreX) * (u - centreX) + (v - centreY) * (v - centreY);
    double even =
        1
            + optics.unevenness() * (slow.at(x, y) + slopeX * (u - 0.5) + slopeY * (v - 0.5))
            - optics.vignetting() * 2 * r2;
    double thicknessUm = optics.filmNm() / 1000 * (film.at(x, y) + slopeX * (u - v));
    double turn = 4 * Math.PI * OXIDE_INDEX * thicknessUm / Optics.wavelengthUm(k) + phase;
    return Math.max(0.2, even) * (1 + optics.filmAmplitude() * StrictMath.cos(turn));
  }

  void apply(float[] photo, int w, int h, int k) {
    int columns = w / STEP + 2;
    int rows = h / STEP + 2;
    float[] grid = new float[columns * rows];
    for (int j = 0; j < rows; j++) {
      for (int i = 0; i < columns; i++) {
        grid[j * columns + i] = (float) at(i * STEP, j * STEP, w, h, k);
      }
    }
    float[] line = new float[columns];
    for (int y = 0; y < h; y++) {
      int j = y / STEP;
      float f = (y % STEP) / (float) STEP;
      for (int i = 0; i < columns; i++) {
        line[i] = grid[j * columns + i] * (1 - f) + grid[(j + 1) * columns + i] * f;
      }
      int at = y * w;
      for (int x = 0; x < w; x++) {
        int i = x / STEP;
        float g = (x % STEP) / (float) STEP;
        photo[at + x] *= line[i] + (line[i + 1] - line[i]) * g;
      }
    }
  }
}
