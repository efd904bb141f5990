package org.diesurvey.synthetic;

/** What lies beside the die: dark stage, bright card, or something with texture. */
final class Background {
  private final Reflectance.Rgb level;
  private final double texture;
  private final SmoothField coarse;
  private final SmoothField fine;

  private Background(Reflectance.Rgb level, double texture, SmoothField coarse, SmoothField fine) {
    this.level = level;
    this.texture = texture;
    this.coarse = coarse;
    this.fine = fine;
  }

  static Background draw(Dice dice, int w, int h) {
    double grey =
        switch (dice.weighted(4, 2, 2)) {
          case 0 -> dice.uniform(0.01, 0.08);
          case 1 -> dice.uniform(0.6, 0.95);
          default -> dice.uniform(0.1, 0.5);
        };
    double warm = dice.uniform(-0.15, 0.15);
    return new Background(
        new Reflectance.Rgb(grey * (1 + warm), grey, grey * (1 - warm)),
        dice.chance(0.3) ? 0 : dice.uniform(0.02, 0.3),
        new SmoothField(dice.child("coarse"), w, h, dice.logUniform(60, 400)),
        new SmoothField(dice.child("fine"), w, h, dice.logUniform(3, 20)));
  }

  double level(int k) {
    return level.channel(k);
  }

  void texture(float[] photo, byte[] labels, int w, int h, int k) {
    if (texture == 0) {
      return;
    }
    for (int y = 0; y < h; y++) {
      for (int x = 0; x < w; x++) {
        int i = y * w + x;
        if (labels[i] == SurfaceLabel.OFF_DIE) {
          double t = coarse.at(x, y) * 0.7 + fine.at(x, y) * 0.5;
          photo[i] *= (float) Math.max(0.1, 1 + texture * t);
        }
      }
    }
  }
}
