package org.diesurvey.synthetic;

import java.util.ArrayList;
import java.util.List;

/** A rectangle of logic made of pieces of real logic, side by side, interrupted by blocks. */
final class StampedLogic {
  private final RectUm area;
  private final LayoutChoice choice;
  private final Dice dice;
  private final boolean turned;

  StampedLogic(RectUm area, LayoutChoice choice, Dice dice, boolean turned) {
    this.area = area;
    this.choice = choice;
    this.dice = dice;
    this.turned = turned;
  }

  RectUm area() {
    return area;
  }

  /**
   * Paints and labels the pieces.
   *
   * @param holes rectangles that they leave free, halo included
   */
  void paint(Pen die, List<RectUm> holes) {
    Canvas canvas = die.canvas();
    canvas.label(SurfaceLabel.LOGIC, area);
    List<LayoutChoice.Part> parts = new ArrayList<>();
    for (int i = 0; i < 3; i++) {
      Dice pd = dice.child("piece", i);
      double side = pd.uniform(120, 420);
      choice.pick(pd, LayoutBlock.Kind.LOGIC, side, side).ifPresent(parts::add);
    }
    double y = area.yUm();
    for (int row = 0; y < area.bottomUm() && row < 400; row++) {
      Dice rd = dice.child("row", row);
      LayoutChoice.Part part = parts.get(rd.between(0, parts.size() - 1));
      double height = turned ? part.widthUm() : part.heightUm();
      double x = area.xUm();
      while (x < area.rightUm()) {
        int orientation = rd.between(0, 3) | (turned ? 4 : 0);
        double w = turned ? part.heightUm() : part.widthUm();
        RectUm at = new RectUm(x, y, w, height);
        if (canvas.shows(at.xUm(), at.yUm(), at.rightUm(), at.bottomUm())) {
          choice.stamp(part).setDown(canvas, new PointUm(x, y), orientation, cut(at));
        }
        x += Math.max(1, w);
      }
      y += Math.max(1, height);
    }
    for (RectUm hole : holes) {
      if (hole.overlaps(area)) {
        RectUm cut = cut(hole);
        canvas.clear(cut);
        canvas.label(SurfaceLabel.EMPTY, cut);
      }
    }
  }

  private RectUm cut(RectUm r) {
    double left = Math.max(r.xUm(), area.xUm());
    double top = Math.max(r.yUm(), area.yUm());
    return new RectUm(
        left,
        top,
        Math.max(0, Math.min(r.rightUm(), area.rightUm()) - left),
        Math.max(0, Math.min(r.bottomUm(), area.bottomUm()) - top));
  }
}
