package org.diesurvey.synthetic;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Where everything lies on a die. */
final class Floorplan {
  final RectUm die;
  final RectUm sealed;
  final Optional<PadRing> padRing;
  final RectUm core;
  final List<Block> blocks = new ArrayList<>();
  final List<LogicArea> logic = new ArrayList<>();

  /** Logic made of real pieces. */
  final List<StampedLogic> stamped = new ArrayList<>();

  /** Imprints of solder bumps on a die without a pad ring. */
  final List<RectUm> bumps = new ArrayList<>();

  final List<RectUm> filled = new ArrayList<>();

  /** How often each theme is drawn among the wide dies (own choice). */
  private static final double[] WIDE_THEMES = {4, 1.2, 1.2, 0.8, 4};

  /** The same for sparse dies: mostly bare ground, no core of logic all over (own choice). */
  private static final double[] SPARSE_THEMES = {2, 1, 1, 1.5, 6};

  /** Share of analog dies of the wide style that hold large devices one by one (own choice). */
  private static final double LARGE = 0.35;

  private final Technology tech;
  private final Dice dice;
  private final boolean showpiece;
  private final Theme theme;
  private final boolean wide;
  private final boolean sparse;
  private final Optional<LayoutChoice> real;

  /** What most of the die is. */
  private enum Theme {
    BALANCED,
    MEMORY,
    ANALOG,
    LOGIC,
    /** A half or more is bare ground. */
    BARE
  }

  private Floorplan(
      Technology tech,
      Dice dice,
      double w,
      double h,
      DrawOptions.Style style,
      Optional<LayoutChoice> real) {
    boolean showpiece = style == DrawOptions.Style.SHOWPIECE;
    this.wide = style.wide();
    this.sparse = style == DrawOptions.Style.SPARSE;
    this.real = real;
    this.tech = tech;
    this.dice = dice;
    this.showpiece = showpiece;
    this.die = new RectUm(0, 0, w, h);
    this.theme =
        showpiece
            ? Theme.BALANCED
            : Theme.values()[
                dice.child("theme")
                    .weighted(
                        sparse
                            ? SPARSE_THEMES
                            : wide ? WIDE_THEMES : new double[] {6, 1.2, 0.9, 0.8})];
    Dice d = dice.child("frame");
    double least = Math.min(w, h);
    double seal = Math.min(least * 0.06, d.uniform(8, 70));
    this.sealed = die.grown(-seal);
    boolean ring = showpiece || (least > 350 && d.chance(0.9));
    double depth = Math.min(least * d.uniform(0.06, 0.17), d.logUniform(60, 400));
    this.padRing = ring ? Optional.of(ring(dice.child("pad ring"), depth)) : Optional.empty();
    if (padRing.isEmpty() && d.chance(0.3)) {
      double pitch = d.uniform(120, 260);
      double size = pitch * d.uniform(0.35, 0.6);
      for (double x = sealed.xUm() + pitch / 2; x < sealed.rightUm() - pitch / 2; x += pitch) {
        for (double y = sealed.yUm() + pitch / 2; y < sealed.bottomUm() - pitch / 2; y += pitch) {
          bumps.add(new RectUm(x - size / 2, y - size / 2, size, size));
        }
      }
    }
    RectUm inside = padRing.map(PadRing::inner).orElse(sealed);
    this.core = inside.grown(-Math.min(least * 0.02, d.logUniform(1.5, 30)));
  }

  /** A ring at the frame of the die or, on some wide dies, some way inside it. */
  private PadRing ring(Dice d, double depth) {
    if (!wide) {
      return new PadRing(tech, d, sealed, depth, showpiece);
    }
    Dice w = d.child("wide");
    double least = Math.min(sealed.widthUm(), sealed.heightUm());
    double margin = w.chance(0.35) ? Math.min(least * 0.08, w.logUniform(5, 150)) : 0;
    boolean realCells =
        real.isPresent()
            && (real.get().takes(LayoutBlock.Kind.IO_CELL)
                || real.get().takes(LayoutBlock.Kind.IO_ROW));
    return new PadRing(
        tech, d, sealed.grown(-margin), depth, false, 0.72, realCells ? real : Optional.empty());
  }

  static Floorplan draw(Technology tech, Dice dice, double w, double h, boolean showpiece) {
    return draw(
        tech,
        dice,
        w,
        h,
        showpiece ? DrawOptions.Style.SHOWPIECE : DrawOptions.Style.ANY,
        Optional.empty());
  }

  /**
   * Where everything lies.
   *
   * @param real where blocks of real layouts come from; drawn ones alone without it
   */
  static Floorplan draw(
      Technology tech,
      Dice dice,
      double w,
      double h,
      DrawOptions.Style style,
      Optional<LayoutChoice> real) {
    Floorplan plan = new Floorplan(tech, dice, w, h, style, real);
    if (plan.wide && plan.theme == Theme.ANALOG && dice.child("large devices").chance(LARGE)) {
      plan.contents().largeDevices(dice.child("large devices"));
      return plan;
    }
    plan.placeMemories(dice.child("memories"));
    plan.placeMacros(dice.child("macros"));
    if (plan.sparse) {
      plan.contents().macrosBesideMemories(dice.child("beside memories"));
    }
    if (plan.theme == Theme.BARE) {
      plan.contents().scatteredLogic(dice.child("scattered logic"));
    } else {
      plan.placeLogic(dice.child("logic"));
    }
    return plan;
  }

  /** Centres of bond pads or bumps; known once the ring is painted. */
  List<PointUm> padCentres() {
    return padRing
        .map(PadRing::padCentres)
        .orElse(
            bumps.stream()
                .map(b -> new PointUm(b.xUm() + b.widthUm() / 2, b.yUm() + b.heightUm() / 2))
                .toList());
  }

  /** Where a field is worth looking at: mostly the rim of a block, sometimes anywhere. */
  PointUm pointOfInterest(Dice d) {
    if (blocks.isEmpty() || d.chance(0.2)) {
      return new PointUm(d.uniform(0, die.widthUm()), d.uniform(0, die.heightUm()));
    }
    RectUm r = blocks.get(d.between(0, blocks.size() - 1)).rect();
    for (int i = 0; i < 3 && r.areaUm2() < core.areaUm2() * 0.02; i++) {
      r = blocks.get(d.between(0, blocks.size() - 1)).rect();
    }
    return new PointUm(
        r.xUm() + d.uniform(-0.1, 1.1) * r.widthUm(),
        r.yUm() + d.uniform(-0.1, 1.1) * r.heightUm());
  }

  private void placeMemories(Dice d) {
    int families =
        showpiece
            ? 4
            : switch (theme) {
              case BALANCED -> d.weighted(0.3, 2.5, 3, 2, 1, 0.5);
              case MEMORY -> d.between(2, 6);
              case ANALOG -> d.weighted(1, 2, 1);
              case LOGIC -> d.weighted(0.6, 2, 1);
              case BARE -> d.weighted(1.5, 2, 1, 0.5);
            };
    double share =
        switch (theme) {
          case BALANCED -> showpiece ? 0.45 : d.uniform(0.1, 0.6);
          case MEMORY -> d.uniform(0.5, 0.85);
          case ANALOG -> d.uniform(0.03, 0.2);
          case LOGIC -> d.uniform(0.02, 0.15);
          case BARE -> d.logUniform(0.04, 0.5);
        };
    double budget = core.areaUm2() * share;
    if (families > 0 && takes(LayoutBlock.Kind.MEMORY)) {
      new LayoutPlacer(real.get(), core, blocks).memories(d.child("real"), budget);
      if (d.child("mixed").chance(0.75)) {
        return;
      }
      budget *= 0.3;
    }
    CellArray.Rule common = CellArray.Rule.draw(d.child("common rule"), tech);
    int id = 0;
    for (int f = 0; f < families; f++) {
      Dice fd = d.child("family", f);
      CellArray.Rule rule = fd.chance(0.6) ? common : CellArray.Rule.draw(fd.child("rule"), tech);
      double area = Math.min(budget / families * fd.logUniform(0.5, 1.6), core.areaUm2() * 0.6);
      int copies = fd.weighted(3, 2.5, 1, 2, 1, 0.6, 0.3, 0.8) + 1;
      if (fd.chance(0.15)) {
        copies = fd.between(6, 24);
      }
      double each = area / copies;
      if (fd.chance(0.15)) {
        double side = fd.logUniform(25, 140);
        each = Math.min(each, side * side);
      }
      double aspect = fd.logUniform(0.45, 2.2);
      int turn = fd.chance(0.4) ? 4 : 0;
      double moat = tech.rowHeightUm() * fd.logUniform(0.2, 5);
      Dice street = fd.child("street");
      // Between the memories of a bank there may be streets of logic.
      double gap = !showpiece && street.chance(0.35) ? street.logUniform(20, 160) : moat;
      MemoryMacro macro = null;
      Optional<RectUm> place = Optional.empty();
      double w = 0;
      double h = 0;
      int columns = 1;
      int rows = 1;
      // What does not fit is tried once more as one macro, then smaller.
      for (int attempt = 0; attempt < 5 && place.isEmpty(); attempt++) {
        macro =
            MemoryMacro.draw(
                fd.child("macro"), tech, rule, Math.sqrt(each * aspect), Math.sqrt(each / aspect));
        w = turn == 4 ? macro.height() : macro.width();
        h = turn == 4 ? macro.width() : macro.height();
        columns =
            Math.max(1, Math.min(copies, (int) StrictMath.round(StrictMath.sqrt(copies * h / w))));
        rows = Math.max(1, copies / columns);
        place =
            FreePlace.find(
                fd,
                core,
                blocks,
                new RectUm(0, 0, columns * (w + gap) - gap, rows * (h + gap) - gap),
                moat);
        if (copies > 1 && attempt % 2 == 0) {
          copies = Math.max(1, copies / 2);
        } else {
          each *= 0.55;
        }
      }
      if (place.isEmpty()) {
        continue;
      }
      boolean mirrored = fd.chance(0.5);
      for (int i = 0; i < columns; i++) {
        for (int j = 0; j < rows; j++) {
          int o =
              turn
                  + (mirrored && i % 2 == 1 ? (turn == 4 ? 2 : 1) : 0)
                  + (mirrored && j % 2 == 1 ? (turn == 4 ? 1 : 2) : 0);
          addMemory(
              "M" + (++id),
              macro,
              place.get().xUm() + i * (w + gap),
              place.get().yUm() + j * (h + gap),
              o);
        }
      }
    }
  }

  private void addMemory(String id, MemoryMacro macro, double x, double y, int orientation) {
    blocks.add(Block.memory(id, macro, x, y, orientation));
  }

  private void placeMacros(Dice d) {
    int count =
        showpiece
            ? 7
            : switch (theme) {
              case BALANCED -> d.between(1, 12);
              case MEMORY -> d.between(0, 5);
              case ANALOG -> d.between(8, 30);
              case LOGIC -> d.between(0, 6);
              case BARE -> d.between(0, 14);
            };
    for (int i = 0; i < count; i++) {
      Dice md = d.child("macro", i);
      double most = Math.min(1000, Math.min(core.widthUm(), core.heightUm()) * 0.45);
      double least = theme == Theme.ANALOG && md.chance(0.6) ? Math.min(100, most * 0.4) : 20;
      double side = md.logUniform(least, Math.max(least * 1.2, most));
      double aspect = md.logUniform(0.35, 2.8);
      double w = Math.min(most * 1.4, side * Math.sqrt(aspect));
      double h = Math.min(most * 1.4, side / Math.sqrt(aspect));
      Dice other = md.child("wide");
      if (takes(LayoutBlock.Kind.MACRO) && other.chance(0.65)) {
        new LayoutPlacer(real.get(), core, blocks).macro(other, "H" + (i + 1), most);
        continue;
      }
      boolean array = wide && other.chance(0.4);
      Optional<RectUm> place =
          FreePlace.find(md, core, blocks, new RectUm(0, 0, w, h), md.uniform(1, 14));
      if (place.isEmpty()) {
        continue;
      }
      if (array) {
        DeviceArray devices = new DeviceArray(tech, md.child("array"), w, h);
        String kind = devices.kind().name().toLowerCase(java.util.Locale.ROOT).replace('_', ' ');
        blocks.add(Block.macro("H" + (i + 1), kind, devices::paint, place.get(), md.between(0, 3)));
        continue;
      }
      AnalogMacro macro =
          new AnalogMacro(
              tech, md.child("content"), w, h, wide ? AnalogMacro.SHOWN : AnalogMacro.ANY);
      blocks.add(Block.macro("H" + (i + 1), macro, place.get(), md.between(0, 3)));
    }
  }

  /** Fills the die inside its seal with small equal shapes; blocks clear their own ground. */
  void fillGround(Pen die, Dice d) {
    if (takes(LayoutBlock.Kind.FILL) && d.child("real").chance(0.6)) {
      real.get().fill(die.canvas(), d, sealed);
      return;
    }
    Pen pen = die.at(sealed.xUm(), sealed.yUm());
    if (wide && d.child("kind").chance(0.8)) {
      FillPattern.paint(pen, d.child("wide"), sealed.widthUm(), sealed.heightUm());
    } else {
      Devices.fill(pen, d, sealed.widthUm(), sealed.heightUm());
    }
  }

  private WideContents contents() {
    return new WideContents(tech, real, core, blocks, logic, stamped, sparse);
  }

  private boolean takes(LayoutBlock.Kind kind) {
    return real.isPresent() && real.get().takes(kind);
  }

  private void placeLogic(Dice d) {
    int cuts = showpiece ? 2 : d.weighted(3, 2, 1.5, 1, 0.7);
    List<RectUm> parts = new ArrayList<>(List.of(core));
    for (int i = 0; i < cuts; i++) {
      RectUm r = parts.remove(d.between(0, parts.size() - 1));
      double moat = d.chance(0.5) ? 0 : d.logUniform(1, 25);
      double share = d.uniform(0.25, 0.75);
      if (r.widthUm() > r.heightUm()) {
        double w = (r.widthUm() - moat) * share;
        parts.add(new RectUm(r.xUm(), r.yUm(), w, r.heightUm()));
        parts.add(
            new RectUm(
                r.xUm() + w + moat, r.yUm(), Math.max(0, r.widthUm() - w - moat), r.heightUm()));
      } else {
        double h = (r.heightUm() - moat) * share;
        parts.add(new RectUm(r.xUm(), r.yUm(), r.widthUm(), h));
        parts.add(
            new RectUm(
                r.xUm(), r.yUm() + h + moat, r.widthUm(), Math.max(0, r.heightUm() - h - moat)));
      }
    }
    LogicStyle common = contents().library(d.child("library"));
    boolean turned = d.chance(0.25);
    for (int i = 0; i < parts.size(); i++) {
      Dice pd = d.child("part", i);
      double kind = parts.size() == 1 ? 0 : pd.uniform(0, 1);
      if (wide && takes(LayoutBlock.Kind.LOGIC) && kind < 0.85) {
        contents().addLogic(pd, parts.get(i), common, turned);
      } else if (showpiece || kind < 0.85) {
        boolean hard = pd.chance(0.08);
        LogicStyle style =
            pd.chance(0.65) && !hard ? common : LogicStyle.draw(pd.child("style"), tech, hard);
        boolean t = pd.chance(0.9) ? turned : !turned;
        logic.add(new LogicArea(parts.get(i), style, pd.child("rows"), t));
      } else if (kind > 0.93) {
        filled.add(parts.get(i));
      }
    }
  }
}
