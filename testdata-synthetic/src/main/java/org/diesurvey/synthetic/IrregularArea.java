package org.diesurvey.synthetic;

/** Fills a rectangle by cutting it in two again and again and putting a device into each piece. */
final class IrregularArea {
  private final Technology tech;
  private final double leastUm;
  private final double mostUm;
  private final double gap;
  private final double emptiness;
  private final boolean wells;

  /**
   * @param leastUm pieces are not cut below this side
   * @param mostUm pieces above this side are always cut
   * @param gap share of a piece left free around its device
   * @param emptiness share of pieces without a device
   */
  IrregularArea(
      Technology tech, double leastUm, double mostUm, double gap, double emptiness, boolean wells) {
    this.tech = tech;
    this.leastUm = leastUm;
    this.mostUm = mostUm;
    this.gap = gap;
    this.emptiness = emptiness;
    this.wells = wells;
  }

  void paint(Pen pen, Dice dice, double w, double h) {
    if (w <= 0 || h <= 0 || !pen.shows(0, 0, w, h)) {
      return;
    }
    double longest = Math.max(w, h);
    boolean cut = longest > 2 * leastUm && (longest > mostUm || dice.chance(0.75));
    if (cut) {
      double share = dice.uniform(0.3, 0.7);
      if (w > h) {
        paint(pen, dice, w * share, h);
        paint(pen.at(w * share, 0), dice, w * (1 - share), h);
      } else {
        paint(pen, dice, w, h * share);
        paint(pen.at(0, h * share), dice, w, h * (1 - share));
      }
      return;
    }
    if (dice.chance(emptiness)) {
      return;
    }
    double margin = Math.min(w, h) * gap;
    leaf(pen.at(margin, margin), dice, w - 2 * margin, h - 2 * margin);
  }

  private void leaf(Pen pen, Dice dice, double w, double h) {
    double least = Math.min(w, h);
    double gate = tech.gateUm() * dice.logUniform(1, 4);
    switch (dice.weighted(3, 2, 1, 1.5, wells ? 0.6 : 0)) {
      case 0 -> pen.diffusion(0, 0, w, h);
      case 1 -> Devices.fingers(pen, dice, w, h, gate);
      case 2 -> {
        double line = least * dice.uniform(0.08, 0.2);
        pen.ring(0, 0, w, h, line, 1);
        pen.diffusion(
            2.2 * line, 2.2 * line, Math.max(0, w - 4.4 * line), Math.max(0, h - 4.4 * line));
      }
      case 3 -> {
        double pitch = Math.max(least / dice.between(1, 4), tech.diffusionUm() * 2);
        Devices.grid(pen, dice, w, h, pitch * dice.uniform(0.7, 1.4), pitch);
      }
      default -> Devices.bare(pen, dice, w, h);
    }
  }
}
