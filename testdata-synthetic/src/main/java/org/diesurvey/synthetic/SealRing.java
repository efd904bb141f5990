package org.diesurvey.synthetic;

/** Lines around the die and the sawn edge. */
final class SealRing {
  private SealRing() {}

  /** Lines on the strip of this width along the edges of the die. */
  static void paint(Pen pen, RectUm die, double width, Dice dice) {
    int lines = dice.weighted(0.7, 2, 2, 1.5, 0.7);
    double at = width * dice.uniform(0.3, 0.7);
    for (int i = 0; i < lines && at < width; i++) {
      double line = Math.min(width - at, width * dice.uniform(0.03, 0.15));
      RectUm r = die.grown(-at);
      pen.ring(r.xUm(), r.yUm(), r.widthUm(), r.heightUm(), line, 1);
      at += line + width * dice.uniform(0.03, 0.12);
    }
    if (dice.chance(0.25)) {
      double size = width * dice.uniform(0.1, 0.3);
      for (double x = width; x < die.widthUm() - width; x += width * 8) {
        pen.diffusion(x, width * 0.05, size, size * 0.6);
      }
    }
  }

  /** Breaks irregular pieces out of the die edge. */
  static void chip(Canvas canvas, RectUm die, Dice dice) {
    double typical = dice.logUniform(0.2, 4);
    double step = 1.0 / canvas.pxPerUm;
    double keep = StrictMath.exp(-step / dice.logUniform(2, 40));
    double wander = 0;
    for (int side = 0; side < 4; side++) {
      double length = side % 2 == 0 ? die.widthUm() : die.heightUm();
      double chipFrom = dice.chance(0.4) ? dice.uniform(0, length) : length * 2;
      double chipLength = dice.logUniform(8, 120);
      for (double s = 0; s < length; s += step) {
        wander = keep * wander + Math.sqrt(1 - keep * keep) * typical * dice.normal();
        double along = (s - chipFrom) / chipLength;
        double chip = along > 0 && along < 1 ? 0.35 * chipLength * along * (1 - along) * 4 : 0;
        double bite = Math.max(0, wander) + Math.min(chip, die.widthUm() * 0.01);
        switch (side) {
          case 0 -> canvas.label(SurfaceLabel.OFF_DIE, s, -2, s + step, bite);
          case 1 ->
              canvas.label(
                  SurfaceLabel.OFF_DIE, die.rightUm() - bite, s, die.rightUm() + 2, s + step);
          case 2 ->
              canvas.label(
                  SurfaceLabel.OFF_DIE, s, die.bottomUm() - bite, s + step, die.bottomUm() + 2);
          default -> canvas.label(SurfaceLabel.OFF_DIE, -2, s, bite, s + step);
        }
      }
    }
  }
}
