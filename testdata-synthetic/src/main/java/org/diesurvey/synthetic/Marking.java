package org.diesurvey.synthetic;

/** Mask letters and numbers: strokes of diffusion, meaningless here. */
final class Marking {
  private Marking() {}

  /** A line of glyphs, each of straight strokes on a grid of 2 x 3 points. */
  static void paint(Pen pen, Dice dice, double glyphUm) {
    int glyphs = dice.between(2, 9);
    double line = glyphUm * dice.uniform(0.1, 0.2);
    double w = glyphUm * 0.5;
    for (int g = 0; g < glyphs; g++) {
      Pen p = pen.at(g * (w + 2.2 * line), 0);
      for (int column = 0; column < 2; column++) {
        for (int half = 0; half < 2; half++) {
          if (dice.chance(0.6)) {
            p.diffusion(column * w, half * glyphUm / 2, line, glyphUm / 2 + line);
          }
        }
      }
      for (int bar = 0; bar < 3; bar++) {
        if (dice.chance(0.55)) {
          p.diffusion(0, bar * glyphUm / 2, w + line, line);
        }
      }
    }
  }

  /** Puts markings into corners of the frame between die edge and core. */
  static void paintOnDie(Pen die, Floorplan plan, Dice dice) {
    int count = dice.between(1, 4);
    RectUm s = plan.sealed;
    double room = plan.core.xUm() - s.xUm();
    for (int i = 0; i < count; i++) {
      double glyph = Math.min(room * 0.5, dice.logUniform(6, 60));
      double x = dice.chance(0.5) ? s.xUm() + room * 0.15 : s.rightUm() - room * 0.9;
      double y =
          dice.chance(0.5) ? s.yUm() + room * 0.15 : s.bottomUm() - room * dice.uniform(0.3, 0.9);
      paint(die.at(x, y), dice.child("glyphs", i), glyph);
    }
  }
}
