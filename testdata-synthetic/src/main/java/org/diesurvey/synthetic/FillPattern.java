package org.diesurvey.synthetic;

import java.util.ArrayList;
import java.util.List;

/**
 * Active and polysilicon fill of bare ground as planarised processes want it: a lattice without a
 * circuit, left out in places. Sizes and gaps are own choices around what layout rules allow.
 */
final class FillPattern {
  private static final int MOST_CELLS = 20_000;

  private final Dice dice;
  private final double tileW;
  private final double tileH;
  private final double pitchX;
  private final double pitchY;

  private FillPattern(Dice dice) {
    this.dice = dice;
    double side = dice.logUniform(0.7, 10);
    double aspect = dice.chance(0.6) ? 1 : dice.logUniform(0.3, 3.5);
    this.tileW = side * Math.sqrt(aspect);
    this.tileH = side / Math.sqrt(aspect);
    double gap = Math.min(tileW, tileH) * dice.logUniform(0.2, 2);
    this.pitchX = tileW + gap;
    this.pitchY = tileH + (dice.chance(0.6) ? gap : gap * dice.logUniform(0.4, 2.5));
  }

  /** Covers the local rectangle 0, 0, w, h; what is left out of it is empty. */
  static void paint(Pen pen, Dice dice, double w, double h) {
    FillPattern pattern = new FillPattern(dice.child("pattern"));
    if (w / pattern.pitchX < MOST_CELLS && h / pattern.pitchY < MOST_CELLS) {
      pattern.lattices(pen, w, h);
      leaveOut(pen, dice.child("left out"), w, h);
    }
  }

  /** Rows moved against each other in turn, in groups on some dies. */
  private void lattices(Pen pen, double w, double h) {
    List<Shape> shapes = shapes();
    int turns = dice.weighted(3, 2.5, 1, 1) + 1;
    double shift = turns == 2 ? pitchX / 2 : pitchX * dice.uniform(0.1, 1.0 / turns);
    int group = dice.chance(0.25) ? dice.between(2, 16) : 0;
    double seam = group == 0 ? 0 : pitchX * dice.uniform(0.3, 2);
    double stretch = group == 0 ? 1 : 1 + seam / (group * pitchX);
    int columns = (int) (w / (pitchX * stretch));
    int rows = (int) (h / pitchY);
    for (int k = 0; k < turns && columns > turns && rows > turns; k++) {
      Axis across = Axis.seamed(columns - 1, pitchX, false, 0, 0, group, seam).moved(k * shift);
      Axis down = Axis.plain((rows - k - 1) / turns + 1, pitchY * turns).moved(k * pitchY);
      pen.lattice(shapes, across, pitchX, down, pitchY * turns);
    }
  }

  private List<Shape> shapes() {
    List<Shape> all = new ArrayList<>();
    double x = (pitchX - tileW) / 2;
    double y = (pitchY - tileH) / 2;
    int kind = dice.weighted(3, 1, 2, 1.5, 1.5);
    if (kind != 1) {
      all.add(Shape.diffusion(x, y, tileW, tileH));
    }
    switch (kind) {
      case 1 -> all.add(Shape.poly(x, y, tileW, tileH));
      case 2 -> {
        double s = dice.uniform(0.3, 0.85);
        all.add(Shape.poly(x + tileW * (1 - s) / 2, y + tileH * (1 - s) / 2, tileW * s, tileH * s));
      }
      case 3 -> {
        double over = Math.min(pitchX - tileW, pitchY - tileH) * dice.uniform(0.1, 0.45);
        all.add(Shape.poly(x - over, y - over, tileW + 2 * over, tileH + 2 * over));
      }
      case 4 -> {
        double s = dice.uniform(0.3, 0.9);
        double gapX = pitchX - tileW;
        all.add(Shape.poly(x + tileW + gapX * (1 - s) / 2, y, gapX * s, tileH));
      }
      default -> {}
    }
    return all;
  }

  /** Under coils, around marks and pads there is no fill. */
  private static void leaveOut(Pen pen, Dice d, double w, double h) {
    int places = d.weighted(3, 2, 1, 1, 1);
    double most = Math.min(w, h) * 0.4;
    for (int i = 0; i < places && most > 20; i++) {
      double pw = d.logUniform(15, most);
      double ph = pw * d.logUniform(0.5, 2);
      RectUm hole = pen.placed(d.uniform(0, w - pw), d.uniform(0, h - Math.min(h, ph)), pw, ph);
      pen.canvas().clear(hole);
    }
  }
}
