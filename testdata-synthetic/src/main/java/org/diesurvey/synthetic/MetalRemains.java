package org.diesurvey.synthetic;

/** Straps of the lowest metal that the preparation has left, mostly along block edges. */
final class MetalRemains {
  private MetalRemains() {}

  static void paint(Pen die, Floorplan plan, Dice dice) {
    double share = dice.uniform(0.1, 0.6);
    for (Block b : plan.blocks) {
      RectUm r = b.rect().grown(dice.uniform(0, 6));
      double line = dice.logUniform(1.5, 16);
      for (int side = 0; side < 4; side++) {
        if (dice.chance(share)) {
          along(die, r, side, line, dice);
        }
      }
    }
    int loose = dice.between(0, 14);
    for (int i = 0; i < loose; i++) {
      double length = dice.logUniform(30, 900);
      double line = dice.logUniform(1, 20);
      double x = dice.uniform(0, plan.die.widthUm());
      double y = dice.uniform(0, plan.die.heightUm());
      if (dice.chance(0.5)) {
        die.rect(Layer.METAL, x, y, Math.min(length, plan.die.widthUm() - x), line, 1);
      } else {
        die.rect(Layer.METAL, x, y, line, Math.min(length, plan.die.heightUm() - y), 1);
      }
    }
  }

  private static void along(Pen die, RectUm r, int side, double line, Dice dice) {
    double length = side % 2 == 0 ? r.widthUm() : r.heightUm();
    double from = dice.chance(0.5) ? 0 : dice.uniform(0, 0.5) * length;
    double to = dice.chance(0.5) ? length : dice.uniform(0.6, 1) * length;
    if (side % 2 == 0) {
      double y = side == 0 ? r.yUm() - line : r.bottomUm();
      die.rect(Layer.METAL, r.xUm() + from, y, to - from, line, 1);
    } else {
      double x = side == 3 ? r.xUm() - line : r.rightUm();
      die.rect(Layer.METAL, x, r.yUm() + from, line, to - from, 1);
    }
  }
}
