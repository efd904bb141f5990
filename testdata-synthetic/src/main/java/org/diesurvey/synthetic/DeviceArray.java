package org.diesurvey.synthetic;

/**
 * A regular array of large devices in its own frame: a lattice as a memory has, but of plates and
 * combs many times larger than a bit cell of the same process.
 */
final class DeviceArray {
  /** What the array consists of. */
  enum Kind {
    /** Flat plates with dummies around them and switches along one side. */
    CAPACITORS,
    /** Combs of equal fingers in rings. */
    POWER_TRANSISTORS,
    /** Strips in parallel with taps beside them. */
    RESISTOR_LADDER,
    /** Equal stages in a row or two, for delays. */
    DELAY_LINE,
    /** Wide links with a device for each. */
    FUSES,
    /** Flat plates over bare ground, few and large. */
    PLATES
  }

  private final Technology tech;
  private final Dice dice;
  private final Kind kind;
  private final double w;
  private final double h;

  DeviceArray(Technology tech, Dice dice, double w, double h) {
    this.tech = tech;
    this.dice = dice;
    this.kind = Kind.values()[dice.weighted(3, 2, 1.5, 1, 1, 2)];
    this.w = w;
    this.h = h;
  }

  Kind kind() {
    return kind;
  }

  void paint(Pen pen) {
    if (!pen.shows(0, 0, w, h)) {
      return;
    }
    pen.label(SurfaceLabel.HARD_MACRO, 0, 0, w, h);
    Dice d = dice.child("paint");
    if (d.chance(0.4)) {
      pen.rect(Layer.WELL, 0, 0, w, h, d.uniform(-1, 1));
    }
    double least = Math.min(w, h);
    switch (kind) {
      case CAPACITORS -> capacitors(pen, d, least);
      case POWER_TRANSISTORS -> transistors(pen, d, least);
      case RESISTOR_LADDER -> {
        double line = Math.min(least / 4, tech.rowHeightUm() * d.logUniform(0.15, 1));
        Devices.serpentine(pen, d, w, h * d.uniform(0.6, 0.9), line);
        irregular(pen.at(0, h * 0.92), d, w, h * 0.08);
      }
      case DELAY_LINE -> {
        double step = Math.min(least, tech.rowHeightUm() * d.logUniform(0.8, 3));
        double row = step * d.uniform(1, 3);
        for (double y = 0; y + row * 0.8 <= h; y += row * 1.25) {
          Devices.grid(pen.at(0, y), d.child("stage"), w, row * 0.8, step, row * 0.4);
        }
      }
      case FUSES -> {
        double step = Math.min(least / 2, tech.rowHeightUm() * d.logUniform(1, 4));
        Devices.grid(pen, d.child("link"), w, h * 0.45, step, step * d.uniform(1, 4));
        Devices.grid(pen.at(0, h * 0.55), d.child("device"), w, h * 0.45, step, step);
      }
      default -> plates(pen, d, least);
    }
  }

  private double plate(Dice d, double least) {
    double smallest = Math.max(4, 1.5 * tech.rowHeightUm());
    return Math.min(least / 2, d.logUniform(smallest, Math.max(smallest * 1.5, 60)));
  }

  private void capacitors(Pen pen, Dice d, double least) {
    double side = plate(d, least);
    double aspect = d.chance(0.6) ? 1 : d.uniform(0.4, 2.5);
    double switches = d.chance(0.7) ? Math.min(h * 0.3, tech.rowHeightUm() * d.uniform(1, 6)) : 0;
    Devices.grid(pen, d.child("plates"), w, h - switches, side * aspect, side);
    if (d.chance(0.4)) {
      pen.ring(0, 0, w, h - switches, Math.min(side * 0.2, d.uniform(0.5, 3)), 1);
    }
    if (switches > 0) {
      irregular(pen.at(0, h - switches * 0.9), d, w, switches * 0.9);
    }
  }

  private void transistors(Pen pen, Dice d, double least) {
    double sideX = Math.min(w, Math.max(plate(d, least), least * d.uniform(0.1, 0.5)));
    double sideY = Math.min(h, sideX * d.logUniform(0.5, 3));
    int columns = Math.max(1, Math.min(60, (int) (w / sideX)));
    int rows = Math.max(1, Math.min(60, (int) (h / sideY)));
    double gate = Math.max(tech.gateUm(), tech.ioGateUm() * d.logUniform(0.5, 3));
    double gap = d.uniform(0.02, 0.15);
    boolean ringed = d.chance(0.5);
    for (int i = 0; i < columns; i++) {
      for (int j = 0; j < rows; j++) {
        double cw = w / columns * (1 - gap);
        double ch = h / rows * (1 - gap);
        Pen p = pen.at(i * w / columns, j * h / rows);
        if (ringed) {
          p.ring(0, 0, cw, ch, Math.min(gate, cw * 0.08), 1);
        }
        double in = ringed ? Math.min(2 * gate, cw * 0.15) : 0;
        Devices.fingers(
            p.at(in, in),
            d.child("comb"),
            Math.max(1, cw - 2 * in),
            Math.max(1, ch - 2 * in),
            gate);
      }
    }
  }

  private void plates(Pen pen, Dice d, double least) {
    int columns = d.between(1, 4);
    int rows = d.between(1, 3);
    double share = d.uniform(0.75, 0.97);
    for (int i = 0; i < columns; i++) {
      for (int j = 0; j < rows; j++) {
        double pw = w / columns * share;
        double ph = h / rows * share * d.uniform(0.6, 1);
        Pen p = pen.at(i * w / columns, j * h / rows);
        p.diffusion(0, 0, pw, ph);
        if (d.chance(0.5)) {
          p.rect(Layer.POLY, pw * 0.03, ph * 0.03, pw * 0.94, ph * 0.94, 1);
        }
        if (d.chance(0.3)) {
          irregular(p.at(0, ph), d, pw, Math.max(0, Math.min(h / rows - ph, least * 0.1)));
        }
      }
    }
  }

  private void irregular(Pen pen, Dice d, double iw, double ih) {
    double piece = Math.max(1, tech.rowHeightUm() * d.uniform(0.4, 1.5));
    new IrregularArea(tech, piece, piece * 5, 0.12, 0.25, true).paint(pen, d, iw, ih);
  }
}
