package org.diesurvey.synthetic;

/**
 * An amplifier, comparator or reference as it is laid out by hand: bands of matched devices, often
 * the same left and right of a centre line, some bands inside guard rings.
 */
final class AnalogRows {
  private final Technology tech;

  AnalogRows(Technology tech) {
    this.tech = tech;
  }

  void paint(Pen pen, Dice dice, double w, double h) {
    boolean mirrored = dice.chance(0.6);
    double channel = h * dice.uniform(0.01, 0.06);
    double typical = h / dice.between(2, 9);
    double emptiness = dice.uniform(0, 0.35);
    double y = 0;
    for (int i = 0; y < h * 0.97; i++) {
      double band = Math.min(h - y, typical * dice.logUniform(0.4, 2));
      Dice d = dice.child("band", i);
      if (!d.chance(emptiness)) {
        if (mirrored) {
          double half = w * d.uniform(0.35, 0.495);
          band(pen.at(0, y), d.child("half"), half, band - channel);
          band(
              pen.block(w - half, y, half, band - channel, 1),
              d.child("half"),
              half,
              band - channel);
        } else {
          band(pen.at(0, y), d.child("half"), w * d.uniform(0.5, 1), band - channel);
        }
      }
      y += band;
    }
  }

  private void band(Pen pen, Dice d, double w, double h) {
    if (h < 0.8 || w < 0.8) {
      return;
    }
    double gate = tech.ioGateUm() * d.logUniform(0.8, 8);
    if (d.chance(0.35)) {
      double line = Math.min(Math.min(w, h) * 0.08, d.uniform(0.4, 2));
      pen.ring(0, 0, w, h, line, 1);
      inside(pen.at(2.5 * line, 2.5 * line), d, w - 5 * line, h - 5 * line, gate);
    } else {
      inside(pen, d, w, h, gate);
    }
    if (d.chance(0.3)) {
      pen.rect(Layer.WELL, 0, 0, w, h, d.uniform(-1, 1));
    }
  }

  private void inside(Pen pen, Dice d, double w, double h, double gate) {
    if (h < 0.6 || w < 0.6) {
      return;
    }
    int groups = d.between(1, 4);
    double step = w / groups;
    for (int g = 0; g < groups; g++) {
      // Matched groups come from the same draw.
      Dice same = d.child("device", g % 2);
      Pen p = pen.at(g * step, 0);
      double gw = step * same.uniform(0.6, 0.95);
      double gh = h * same.uniform(0.4, 1);
      switch (same.weighted(3, 2, 1.5, 1, 1)) {
        case 0 -> Devices.fingers(p, same, gw, gh, gate);
        case 1 -> {
          int count = same.between(1, 12);
          double unit = gw / count;
          for (int i = 0; i < count; i++) {
            p.diffusion(i * unit, 0, unit * 0.7, gh);
          }
        }
        case 2 -> p.diffusion(0, (h - gh) / 2, gw, gh);
        case 3 -> Devices.serpentine(p, same, gw, gh, Math.max(0.3, gh * same.uniform(0.03, 0.1)));
        default -> Devices.grid(p, same, gw, gh, Math.max(2, gh * 0.5), Math.max(2, gh * 0.5));
      }
    }
  }
}
