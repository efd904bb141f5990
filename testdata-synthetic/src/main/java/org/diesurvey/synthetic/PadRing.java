package org.diesurvey.synthetic;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Frame of I/O cells with bond pads; paints into the die frame. */
final class PadRing {
  /** Share of the rings of real cells whose cells abut, as most real ones do (own choice). */
  private static final double ABUTTING = 0.7;

  private final Technology tech;
  private final Dice dice;
  private final RectUm outer;
  private final double depth;
  private final double pitch;
  private final boolean drivers;
  private final boolean padsOutside;
  private final double padSize;
  private final double padShade;
  private final int stagger;
  private final int kinds;
  private final Optional<LayoutChoice> real;

  /** Real cells lie side by side all along, whatever the pads' pitch. */
  private final boolean abutting;

  /** Outer part of the depth that real cells leave to the pads, um. */
  private final double padsAloneUm;

  /** Depth of each side as a share of the deepest. */
  private final double[] shares = {1, 1, 1, 1};

  private final List<List<Double>> positions = new ArrayList<>();

  /** Cells that a grown ring has more than the one it was made from. */
  private final List<List<Double>> added = List.of(list(), list(), list(), list());

  /** How far a side's cells have moved against its start since the first ring. */
  private final double[] shiftUm = new double[4];

  private final List<PointUm> padCentres = new ArrayList<>();

  PadRing(Technology tech, Dice dice, RectUm outer, double wantedDepth, boolean showpiece) {
    this(tech, dice, outer, wantedDepth, showpiece, 0.9, Optional.empty());
  }

  /**
   * A ring of any kind.
   *
   * @param cells chance that the pads have I/O cells
   * @param real where these come from, if not drawn
   */
  PadRing(
      Technology tech,
      Dice dice,
      RectUm outer,
      double wantedDepth,
      boolean showpiece,
      double cells,
      Optional<LayoutChoice> real) {
    this.real = real;
    this.tech = tech;
    this.dice = dice;
    this.outer = outer;
    Dice d = dice.child("plan");
    this.drivers = showpiece || d.chance(cells);
    this.depth = drivers ? wantedDepth : Math.min(wantedDepth, d.uniform(60, 130));
    this.pitch = Math.max(Math.min(depth * 1.1, d.logUniform(40, 150)), depth * 0.25);
    this.padsOutside = d.chance(0.75);
    this.padSize = Math.min(pitch * d.uniform(0.6, 0.88), depth * (drivers ? 0.42 : 0.85));
    double imprint = d.signed(d.uniform(0.08, 0.4)) * tech.reflectance().field().green();
    double well = tech.reflectance().well().green();
    // A pad without a trace needs an I/O cell, or the ring would be empty ground.
    boolean traceless = d.chance(0.25) && !showpiece && drivers;
    this.padShade = traceless ? 0 : imprint / well;
    this.stagger = d.chance(0.15) ? d.between(1, 2) : 0;
    Dice cellsOf = dice.child("real cells");
    this.abutting = real.isPresent() && drivers && cellsOf.chance(ABUTTING);
    this.padsAloneUm =
        real.isPresent() && padsOutside && cellsOf.chance(0.5)
            ? Math.min(depth * 0.45, padSize * 1.05)
            : 0;
    boolean uneven = !showpiece && d.chance(0.5);
    for (int side = 0; side < 4; side++) {
      if (uneven && d.chance(0.15)) {
        shares[side] = d.uniform(0.55, 0.9);
      }
      positions.add(places(d.child("side", side), side, uneven));
    }
    this.kinds = dice.between(2, 6);
  }

  private PadRing(PadRing from, RectUm outer) {
    this.real = from.real;
    this.abutting = from.abutting;
    this.padsAloneUm = from.padsAloneUm;
    this.tech = from.tech;
    this.dice = from.dice;
    this.outer = outer;
    this.depth = from.depth;
    this.pitch = from.pitch;
    this.drivers = from.drivers;
    this.padsOutside = from.padsOutside;
    this.padSize = from.padSize;
    this.padShade = from.padShade;
    this.stagger = from.stagger;
    this.kinds = from.kinds;
    System.arraycopy(from.shares, 0, shares, 0, 4);
    System.arraycopy(from.shiftUm, 0, shiftUm, 0, 4);
  }

  private static List<Double> list() {
    return new ArrayList<>();
  }

  /**
   * The ring of a die that has grown on one side: that side moves out as it is, the two beside it
   * keep their cells and get further ones in the room that is new.
   *
   * @param side 0 top, 1 right, 2 bottom, 3 left
   * @param byUm how far the side moves out
   */
  PadRing grown(int side, double byUm) {
    boolean across = side % 2 == 1;
    RectUm wider =
        new RectUm(
            outer.xUm(),
            outer.yUm(),
            outer.widthUm() + (across ? byUm : 0),
            outer.heightUm() + (across ? 0 : byUm));
    PadRing ring = new PadRing(this, wider);
    boolean atStart = side == 0 || side == 3;
    for (int s = 0; s < 4; s++) {
      boolean longer = s % 2 == (across ? 0 : 1);
      List<Double> old = positions.get(s);
      double shift = longer && atStart ? byUm : 0;
      ring.shiftUm[s] += shift;
      ring.positions.add(old.stream().map(at -> at + shift).toList());
      if (!longer || old.isEmpty()) {
        continue;
      }
      double end = ring.length(s) - depth - pitch;
      for (double at = old.get(old.size() - 1) + pitch; !atStart && at <= end; at += pitch) {
        ring.added.get(s).add(at);
      }
      for (double at = old.get(0) + shift - pitch; atStart && at >= depth; at -= pitch) {
        ring.added.get(s).add(at);
      }
    }
    return ring;
  }

  private double length(int side) {
    return side % 2 == 0 ? outer.widthUm() : outer.heightUm();
  }

  private List<Double> places(Dice d, int side, boolean uneven) {
    List<Double> at = new ArrayList<>();
    double from = depth + d.uniform(0, 0.5) * pitch;
    double to = length(side) - depth - d.uniform(0, 0.5) * pitch;
    if (uneven && d.chance(0.25)) {
      if (side > 0 && d.chance(0.4)) {
        return at;
      }
      double cut = d.uniform(0.2, 0.7) * (to - from);
      from += d.chance(0.5) ? cut : 0;
      to = Math.max(from, Math.min(to, from + cut * 1.5));
    }
    double step = uneven && d.chance(0.4) ? pitch * d.uniform(1, 2) : pitch;
    int count = (int) ((to - from) / step);
    double slack = (to - from - count * step) / 2;
    for (int i = 0; i < count; i++) {
      if (!(uneven && d.chance(0.06))) {
        at.add(from + slack + i * step);
      }
    }
    return at;
  }

  /** Inside of the frame; a side without cells has no depth. */
  RectUm inner() {
    double top = depthOf(0);
    double left = depthOf(3);
    return new RectUm(
        outer.xUm() + left,
        outer.yUm() + top,
        outer.widthUm() - left - depthOf(1),
        outer.heightUm() - top - depthOf(2));
  }

  private double depthOf(int side) {
    return positions.get(side).isEmpty() ? 0 : depth * shares[side];
  }

  RectUm outer() {
    return outer;
  }

  List<PointUm> padCentres() {
    return List.copyOf(padCentres);
  }

  void paint(Canvas canvas, boolean tiled) {
    canvas.label(SurfaceLabel.PAD_RING, outer);
    padCentres.clear();
    Dice d = dice.child("cells");
    for (int side = 0; side < 4; side++) {
      Pen pen = sidePen(canvas, side);
      double sideDepth = depth * shares[side];
      int last = d.between(0, kinds - 1);
      if (abutting && !positions.get(side).isEmpty()) {
        row(pen, side, sideDepth);
      }
      for (double at : positions.get(side)) {
        if (d.chance(0.6)) {
          last = d.between(0, kinds - 1);
        }
        if (tiled && !abutting) {
          canvas.clear(pen.placed(at + pitch * 0.02, 0, pitch * 0.96, sideDepth));
        }
        if (real.isPresent() && drivers && !abutting) {
          realCell(pen, at, side, last, sideDepth);
        } else if (!abutting) {
          cell(pen.at(at, 0), last, sideDepth);
        }
        pads(pen, at - shiftUm[side], shiftUm[side], d, sideDepth);
      }
    }
    Dice more = dice.child("added");
    for (int side = 0; side < 4; side++) {
      for (double at : added.get(side)) {
        Pen pen = sidePen(canvas, side);
        cell(pen.at(at, 0), more.between(0, kinds - 1), depth * shares[side]);
        pads(pen, at - shiftUm[side], shiftUm[side], more, depth * shares[side]);
      }
    }
    if (dice.child("corner").chance(abutting ? 0.8 : 0.3)) {
      corners(canvas);
    }
  }

  /** Pen whose x runs along the side and whose y runs from the outer frame inwards. */
  private Pen sidePen(Canvas canvas, int side) {
    Pen die = Pen.on(canvas);
    double l = length(side);
    return switch (side) {
      case 0 -> die.block(outer.xUm(), outer.yUm(), l, depth, 0);
      case 1 -> die.block(outer.rightUm() - depth, outer.yUm(), l, depth, 6);
      case 2 -> die.block(outer.xUm(), outer.bottomUm() - depth, l, depth, 2);
      default -> die.block(outer.xUm(), outer.yUm(), l, depth, 4);
    };
  }

  private void pads(Pen pen, double at, double shift, Dice d, double sideDepth) {
    if (d.chance(0.04)) {
      return;
    }
    int rows = stagger == 2 ? 2 : 1;
    for (int r = 0; r < rows; r++) {
      double margin = sideDepth * 0.02;
      double y = padsOutside ? margin : sideDepth - padSize - margin;
      if (stagger > 0 && (r == 1 || (stagger == 1 && ((int) (at / pitch) & 1) == 1))) {
        y += padsOutside ? padSize * 1.15 : -padSize * 1.15;
      }
      double x = at + shift + (pitch - padSize) / 2;
      RectUm placed = pen.placed(x, y, padSize, padSize);
      padCentres.add(
          new PointUm(placed.xUm() + placed.widthUm() / 2, placed.yUm() + placed.heightUm() / 2));
      pen.rect(Layer.WELL, x, y, padSize, padSize, padShade);
    }
  }

  /** Real cells and stretches of rows side by side, from the first pad's cell to the last. */
  private void row(Pen pen, int side, double sideDepth) {
    List<Double> at = positions.get(side);
    boolean whole = at.get(at.size() - 1) - at.get(0) > 0.8 * (length(side) - 2 * depth);
    double x = whole ? depth : at.get(0);
    double end = whole ? length(side) - depth : at.get(at.size() - 1) + pitch;
    pen.canvas().clear(pen.placed(x, 0, end - x, sideDepth));
    Dice d = dice.child("row");
    int last = 0;
    for (int i = 0; x < end && i < 2000; i++) {
      if (d.chance(0.5)) {
        last = d.between(0, kinds - 1);
      }
      Optional<LayoutChoice.Part> part = realPart(last, sideDepth, end - x);
      if (part.isEmpty()) {
        return;
      }
      setDown(pen, part.get(), x, side, sideDepth);
      x += Math.max(1, part.get().widthUm());
    }
  }

  /** A real I/O cell, or a stretch of a row of them, as deep as the side. */
  private void realCell(Pen pen, double at, int side, int kind, double sideDepth) {
    realPart(kind, sideDepth, pitch)
        .ifPresent(part -> setDown(pen, part, at + (pitch - part.widthUm()) / 2, side, sideDepth));
  }

  private Optional<LayoutChoice.Part> realPart(int kind, double sideDepth, double mostWidth) {
    Dice d = dice.child("real kind", kind);
    boolean cell = d.chance(0.6) && real.get().takes(LayoutBlock.Kind.IO_CELL);
    LayoutBlock.Kind which = cell ? LayoutBlock.Kind.IO_CELL : LayoutBlock.Kind.IO_ROW;
    LayoutBlock.Kind other = cell ? LayoutBlock.Kind.IO_ROW : LayoutBlock.Kind.IO_CELL;
    double height = sideDepth - padsAloneUm;
    Optional<LayoutChoice.Part> part = real.get().ofHeight(d, which, height, mostWidth);
    return part.isPresent() ? part : real.get().ofHeight(d, other, height, mostWidth);
  }

  private void setDown(Pen pen, LayoutChoice.Part part, double x, int side, double sideDepth) {
    RectUm place = pen.placed(x, padsAloneUm, part.widthUm(), sideDepth - padsAloneUm);
    real.get()
        .stamp(part)
        .setDown(
            pen.canvas(),
            new PointUm(place.xUm(), place.yUm()),
            // As the side's pen, but the lower side of a cell faces the die edge.
            new int[] {2, 4, 0, 6}[side],
            place);
  }

  /** One I/O cell of the given kind; the same kind is always drawn the same. */
  private void cell(Pen pen, int kind, double sideDepth) {
    if (!drivers || !pen.shows(0, 0, pitch, sideDepth)) {
      return;
    }
    Dice d = dice.child("kind", kind);
    double w = pitch * d.uniform(0.82, 0.98);
    double x0 = (pitch - w) / 2;
    double from =
        padsOutside
            ? padSize * (d.chance(0.3) ? 0.3 : 1.05) * (stagger == 2 ? 2 : 1) + sideDepth * 0.02
            : sideDepth * 0.02;
    double to =
        padsOutside
            ? sideDepth * 0.995
            : sideDepth * 0.995 - padSize * (d.chance(0.3) ? 0.3 : 1.05);
    if (d.chance(0.3)) {
      pen.ring(x0, from, w, to - from, Math.max(0.8, w * 0.015), 1);
    }
    double y = from + sideDepth * 0.01;
    while (y < to - sideDepth * 0.03) {
      double h = Math.min(to - y, sideDepth * d.logUniform(0.04, 0.35));
      Pen p = pen.at(x0 + w * 0.04, y);
      section(p, d, w * 0.92, h - sideDepth * 0.012);
      y += h;
    }
  }

  private void section(Pen p, Dice d, double w, double h) {
    if (h < 1) {
      return;
    }
    double gate = tech.ioGateUm() * d.logUniform(1, 3);
    switch (d.weighted(2.5, 1.5, 1.5, 1.5, 1.5, 1, 1.2, 1)) {
      case 0 -> Devices.fingers(p, d, w, h, gate);
      case 1 -> {
        double pitchX = w / d.between(1, 8);
        Devices.grid(p, d, w, h, pitchX, Math.min(h, pitchX * d.uniform(0.5, 2)));
      }
      case 2 -> p.diffusion(0, 0, w, h);
      case 3 -> {
        double piece = Math.max(1.2, Math.min(w, h) * d.uniform(0.06, 0.25));
        new IrregularArea(tech, piece, piece * 5, 0.12, 0.2, true).paint(p, d, w, h);
      }
      case 6 -> {
        double piece = Math.max(0.8, tech.rowHeightUm() * d.uniform(0.3, 1.2));
        new IrregularArea(tech, piece, piece * 8, 0.1, 0.25, true).paint(p, d, w, h);
      }
      case 7 -> {
        double fine = Math.max(1.5, Math.min(w, h) / d.between(6, 24));
        Devices.grid(p, d, w, h, fine * d.uniform(0.6, 1.6), fine);
      }
      case 4 -> {
        double line = Math.min(h, w) * d.uniform(0.03, 0.09);
        p.ring(0, 0, w, h, line, 1);
        if (h > 8 * line) {
          Devices.fingers(p.at(3 * line, 3 * line), d, w - 6 * line, h - 6 * line, gate);
        }
      }
      default -> Devices.bare(p, d, w, h);
    }
  }

  private void corners(Canvas canvas) {
    Dice d = dice.child("corner cell");
    double side = depth * 0.9;
    for (int c = 0; c < 4; c++) {
      if (depthOf(c < 2 ? 0 : 2) == 0 || depthOf(c % 2 == 0 ? 3 : 1) == 0) {
        continue;
      }
      double x = c % 2 == 0 ? outer.xUm() + depth * 0.05 : outer.rightUm() - depth * 0.95;
      double y = c < 2 ? outer.yUm() + depth * 0.05 : outer.bottomUm() - depth * 0.95;
      Pen pen = Pen.on(canvas).block(x, y, side, side, (c % 2) + (c < 2 ? 0 : 2));
      Dice same = d.child("content");
      int bands = same.between(1, 6);
      for (int b = 0; b < bands; b++) {
        double t = side * same.uniform(0.3, 0.95);
        double line = side * same.uniform(0.02, 0.1);
        pen.diffusion(t, t, side - t, line);
        pen.diffusion(t, t, line, side - t);
      }
    }
  }
}
