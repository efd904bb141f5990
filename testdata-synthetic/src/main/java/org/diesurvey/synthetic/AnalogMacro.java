package org.diesurvey.synthetic;

/**
 * A hard macro in its own frame. The kind decides what dominates; the size decides how it is cut.
 */
final class AnalogMacro {
  /** What dominates the macro. */
  enum Kind {
    MIXED,
    CAPACITORS,
    POWER_SWITCH,
    RESISTORS,
    BIPOLAR,
    SPARSE,
    INDUCTOR,
    CONVERTER,
    ROOMY,
    ROWS,
    DULL
  }

  private final Technology tech;
  private final Dice dice;
  private final Kind kind;
  private final double w;
  private final double h;

  /** How often each kind is drawn. */
  static final double[] ANY = {2.6, 1.7, 0.7, 0.9, 0.9, 3.4, 0.7, 0.9, 2.8, 3, 1.2};

  /** The same where macros stand in bare ground: those that hardly differ from it are rare. */
  static final double[] SHOWN = {3.2, 1.7, 0.9, 0.9, 0.9, 0.7, 0.5, 0.9, 2.4, 3, 0.1};

  AnalogMacro(Technology tech, Dice dice, double w, double h) {
    this(tech, dice, w, h, ANY);
  }

  AnalogMacro(Technology tech, Dice dice, double w, double h, double[] weights) {
    this.tech = tech;
    this.dice = dice;
    this.w = w;
    this.h = h;
    Kind drawn = Kind.values()[dice.weighted(weights)];
    this.kind = drawn == Kind.INDUCTOR && Math.min(w, h) < 80 ? Kind.MIXED : drawn;
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
    double rim = Math.min(w, h) * d.uniform(0.01, 0.06);
    if (d.chance(0.45)) {
      double line = Math.min(rim, d.uniform(0.4, 3));
      pen.ring(0, 0, w, h, line, d.chance(0.7) ? 1 : 0.4);
      if (d.chance(0.3)) {
        pen.ring(2 * line, 2 * line, w - 4 * line, h - 4 * line, line, 1);
        rim += 3 * line;
      }
    }
    if (d.chance(0.35)) {
      pen.rect(Layer.WELL, 0, 0, w, h, d.uniform(-1.2, 1.2));
    }
    fill(pen.at(rim, rim), d, w - 2 * rim, h - 2 * rim);
  }

  private void fill(Pen pen, Dice d, double iw, double ih) {
    double least = Math.min(iw, ih);
    double gate = Math.max(tech.ioGateUm(), tech.gateUm()) * d.logUniform(0.8, 6);
    switch (kind) {
      case CAPACITORS -> capacitors(pen, d, iw, ih);
      case POWER_SWITCH -> powerSwitch(pen, d, iw, ih, gate);
      case RESISTORS -> {
        double line = d.logUniform(0.4, 3);
        double share = d.uniform(0.4, 0.9);
        Devices.serpentine(pen, d, iw * share, ih * d.uniform(0.5, 1), line);
        new IrregularArea(tech, least * 0.08, least * 0.4, 0.15, 0.3, true)
            .paint(pen.at(iw * share, 0), d, iw * (1 - share), ih);
      }
      case BIPOLAR -> bipolarArray(pen, d, iw, ih);
      case SPARSE -> sparse(pen, d, iw, ih);
      case INDUCTOR -> inductor(pen, d, iw, ih);
      case CONVERTER -> converter(pen, d, iw, ih);
      case ROWS -> new AnalogRows(tech).paint(pen, d, iw, ih);
      case DULL -> dull(pen, d, iw, ih);
      case ROOMY -> {
        double piece = Math.max(1.5, least * d.uniform(0.04, 0.15));
        new IrregularArea(tech, piece, piece * 6, 0.2, d.uniform(0.4, 0.8), true)
            .paint(pen, d, iw, ih);
      }
      default -> {
        double piece = Math.max(1.5, least * d.uniform(0.05, 0.22));
        new IrregularArea(
                tech,
                piece,
                Math.min(160, piece * 5),
                d.uniform(0.05, 0.2),
                d.uniform(0.05, 0.35),
                true)
            .paint(pen, d, iw, ih);
      }
    }
  }

  private static void capacitors(Pen pen, Dice d, double iw, double ih) {
    double pitch = Math.min(Math.min(iw, ih) / 2, d.logUniform(5, 45));
    double aspect = d.chance(0.6) ? 1 : d.uniform(0.4, 2.5);
    double split = d.chance(0.4) ? d.uniform(0.3, 0.7) : 1;
    Devices.grid(pen, d.child("caps"), iw * split * 0.97, ih, pitch * aspect, pitch);
    if (split < 1) {
      Devices.grid(
          pen.at(iw * split, 0),
          d.child("caps"),
          iw * (1 - split),
          ih * d.uniform(0.4, 1),
          pitch * aspect,
          pitch);
    }
  }

  private void powerSwitch(Pen pen, Dice d, double iw, double ih, double gate) {
    int banks = d.between(1, 5);
    double share = d.uniform(0.8, 0.97);
    boolean stacked = d.chance(0.5);
    for (int b = 0; b < banks; b++) {
      Dice same = d.child("bank");
      double bw = stacked ? iw : iw / banks * share;
      double bh = stacked ? ih / banks * share : ih;
      Pen p = pen.at(stacked ? 0 : b * iw / banks, stacked ? b * ih / banks : 0);
      if (d.chance(0.3)) {
        p.ring(0, 0, bw, bh, gate, 1);
        Devices.fingers(
            p.at(2 * gate, 2 * gate),
            same,
            Math.max(1, bw - 4 * gate),
            Math.max(1, bh - 4 * gate),
            gate);
      } else {
        Devices.fingers(p, same, bw, bh, gate);
      }
    }
  }

  private void bipolarArray(Pen pen, Dice d, double iw, double ih) {
    double side = Math.min(Math.min(iw, ih) / 2, d.logUniform(5, 30));
    int columns = Math.max(1, Math.min((int) (iw * 0.7 / side), d.pickInt(2, 3, 3, 4, 8)));
    int rows = Math.max(1, Math.min((int) (ih / side), d.pickInt(1, 2, 3, 3, 4)));
    for (int i = 0; i < columns; i++) {
      for (int j = 0; j < rows; j++) {
        Devices.bipolar(pen.at(i * side, j * side), d.child("device"), side * 0.9, side * 0.9);
      }
    }
    double rest = columns * side * 1.1;
    new IrregularArea(tech, side * 0.3, side * 2, 0.15, 0.35, true)
        .paint(pen.at(rest, 0), d, Math.max(0, iw - rest), ih);
  }

  /** A wide even field with few small devices, some of them in line. */
  private void sparse(Pen pen, Dice d, double iw, double ih) {
    int groups = d.between(1, 3);
    for (int g = 0; g < groups; g++) {
      int count = d.between(1, 10);
      double a = Math.min(iw / (count + 1), d.logUniform(2, 14));
      double b = Math.min(ih / 3, d.logUniform(0.8, 6));
      double step = iw * d.uniform(0.5, 0.95) / count;
      double y = ih * d.uniform(0.05, 0.85);
      double x = iw * d.uniform(0.01, 0.08);
      for (int i = 0; i < count; i++) {
        pen.diffusion(x + i * step, y, Math.min(a, step * 0.8), b);
        if (d.chance(0.5)) {
          pen.rect(Layer.POLY, x + i * step + a * 0.4, y, a * 0.2, b, 1);
        }
      }
    }
    if (d.chance(0.4)) {
      pen.ring(0, 0, iw, ih, d.uniform(0.5, 2), 0.5);
    }
  }

  /**
   * Hardly anything at this layer: wells, perhaps one small device; capacitors lie in the metals.
   */
  private static void dull(Pen pen, Dice d, double iw, double ih) {
    int wells = d.between(1, 4);
    for (int i = 0; i < wells; i++) {
      double a = iw * d.uniform(0.2, 0.9);
      double b = ih * d.uniform(0.2, 0.9);
      double x = (iw - a) * d.uniform(0, 1);
      double y = (ih - b) * d.uniform(0, 1);
      pen.rect(Layer.WELL, x, y, a, b, d.uniform(-1, 1));
      if (d.chance(0.5)) {
        pen.ring(x, y, a, b, d.uniform(0.4, 1.5), d.uniform(0.2, 0.7));
      }
    }
    int devices = d.between(0, 4);
    for (int i = 0; i < devices; i++) {
      double size = d.logUniform(1, 8);
      double x = d.uniform(0, 0.9) * iw;
      double y = d.uniform(0, 0.9) * ih;
      pen.diffusion(x, y, Math.min(size * d.uniform(1, 6), iw - x), Math.min(size, ih - y));
    }
  }

  private void inductor(Pen pen, Dice d, double iw, double ih) {
    double side = Math.min(iw, ih) * d.uniform(0.6, 0.95);
    if (d.chance(0.5)) {
      pen.rect(Layer.WELL, 0, 0, side, side, d.uniform(-1, 1));
    }
    if (d.chance(0.5)) {
      pen.ring(0, 0, side, side, d.uniform(1, 5), 1);
    }
    double rest = iw - side - 2;
    if (rest > 5) {
      new IrregularArea(tech, 3, 30, 0.12, 0.3, true).paint(pen.at(side + 2, 0), d, rest, ih);
    } else {
      new IrregularArea(tech, 3, 30, 0.12, 0.3, true)
          .paint(pen.at(0, side + 2), d, iw, ih - side - 2);
    }
  }

  private void converter(Pen pen, Dice d, double iw, double ih) {
    double pitch = Math.min(Math.min(iw, ih) / 6, d.logUniform(4, 22));
    double share = d.uniform(0.5, 0.8);
    double ring = d.chance(0.5) ? pitch : 0;
    Devices.grid(
        pen.at(ring, ring),
        d.child("units"),
        iw * share - 2 * ring,
        ih - 2 * ring,
        pitch,
        pitch * d.uniform(0.5, 2));
    if (ring > 0) {
      pen.ring(0, 0, iw * share, ih, ring * 0.3, 1);
    }
    double piece = pitch * d.uniform(0.5, 1.5);
    new IrregularArea(tech, piece, piece * 5, 0.12, 0.2, true)
        .paint(pen.at(iw * share + pitch, 0), d, iw * (1 - share) - pitch, ih);
  }
}
