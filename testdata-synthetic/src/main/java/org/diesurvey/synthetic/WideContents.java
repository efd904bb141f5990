package org.diesurvey.synthetic;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** What dies of the wide style hold beside what all dies do. */
final class WideContents {
  private final Technology tech;
  private final Optional<LayoutChoice> real;
  private final RectUm core;
  private final List<Block> blocks;
  private final List<LogicArea> logic;
  private final List<StampedLogic> stamped;
  private final boolean sparse;

  /** Share of the libraries of sparse dies whose rows are mostly fill cells (own choice). */
  private static final double FILLED_ROWS = 0.55;

  /** Share of pieces of logic that are few rows: usual, and on sparse dies (own choice). */
  private static final double FEW_ROWS = 0.12;

  private static final double FEW_ROWS_SPARSE = 0.35;

  /**
   * @param blocks memories and macros; grow
   * @param logic drawn logic; grows
   * @param stamped logic of real pieces; grows
   * @param sparse whether the die is of the sparse style
   */
  WideContents(
      Technology tech,
      Optional<LayoutChoice> real,
      RectUm core,
      List<Block> blocks,
      List<LogicArea> logic,
      List<StampedLogic> stamped,
      boolean sparse) {
    this.tech = tech;
    this.real = real;
    this.core = core;
    this.blocks = blocks;
    this.logic = logic;
    this.stamped = stamped;
    this.sparse = sparse;
  }

  /** A core of large devices one by one, as on bipolar and power dies: one macro all over. */
  void largeDevices(Dice d) {
    double least = Math.min(core.widthUm(), core.heightUm());
    double piece = Math.min(least / 6, tech.rowHeightUm() * d.logUniform(1.5, 12));
    double gap = d.uniform(0.08, 0.3);
    double emptiness = d.uniform(0.1, 0.45);
    blocks.add(
        Block.macro(
            "H1",
            "large devices",
            pen -> {
              pen.label(SurfaceLabel.HARD_MACRO, 0, 0, core.widthUm(), core.heightUm());
              new IrregularArea(tech, piece, piece * 6, gap, emptiness, true)
                  .paint(pen, d.child("devices"), core.widthUm(), core.heightUm());
            },
            core,
            0));
  }

  /** Few rectangles of logic in bare ground, now and then a single row or two. */
  void scatteredLogic(Dice d) {
    int count = d.weighted(1.5, 2, 2, 1.5, 1, 1);
    LogicStyle common = library(d.child("library"));
    boolean turned = d.chance(0.25);
    List<Block> taken = new ArrayList<>(blocks);
    for (int i = 0; i < count; i++) {
      Dice pd = d.child("part", i);
      double most = Math.min(core.widthUm(), core.heightUm());
      double side = pd.logUniform(Math.min(60, most * 0.2), most * 0.5);
      double aspect = pd.logUniform(0.3, 3.5);
      double w = side * Math.sqrt(aspect);
      double h = side / Math.sqrt(aspect);
      if (pd.chance(sparse ? FEW_ROWS_SPARSE : FEW_ROWS)) {
        double rows = tech.rowHeightUm() * pd.between(1, 4);
        w = turned ? rows : w;
        h = turned ? h : rows;
      }
      Optional<RectUm> place =
          FreePlace.find(pd, core, taken, new RectUm(0, 0, w, h), pd.logUniform(2, 60));
      if (place.isEmpty()) {
        continue;
      }
      addLogic(pd, place.get(), common, turned);
      taken.add(Block.macro("L", "logic", pen -> {}, place.get(), 0));
    }
  }

  /** A library of standard cells; on some sparse dies one whose rows are mostly fill cells. */
  LogicStyle library(Dice d) {
    LogicStyle style = LogicStyle.draw(d, tech, false);
    Dice fill = d.child("fill cells");
    return sparse && fill.chance(FILLED_ROWS) ? style.mostlyFilled(fill) : style;
  }

  /** Small macros close to the sides of memories, where drivers and references of memories lie. */
  void macrosBesideMemories(Dice d) {
    List<RectUm> memories =
        blocks.stream()
            .filter(b -> b.truth().surface() == SurfaceLabel.MEMORY_ARRAY)
            .map(Block::rect)
            .toList();
    int count = memories.isEmpty() ? 0 : d.between(0, 6);
    for (int i = 0; i < count; i++) {
      Dice md = d.child("macro", i);
      RectUm beside = memories.get(md.between(0, memories.size() - 1));
      double side = md.logUniform(25, 130);
      double aspect = md.logUniform(0.5, 2);
      double w = side * Math.sqrt(aspect);
      double h = side / Math.sqrt(aspect);
      double gap = md.logUniform(1.5, 25);
      double along = md.uniform(-0.1, 1);
      RectUm at =
          switch (md.between(0, 3)) {
            case 0 -> new RectUm(beside.rightUm() + gap, y(beside, along), w, h);
            case 1 -> new RectUm(beside.xUm() - gap - w, y(beside, along), w, h);
            case 2 -> new RectUm(x(beside, along), beside.bottomUm() + gap, w, h);
            default -> new RectUm(x(beside, along), beside.yUm() - gap - h, w, h);
          };
      if (!core.contains(at) || blocks.stream().anyMatch(b -> b.rect().overlaps(at.grown(1)))) {
        continue;
      }
      AnalogMacro macro = new AnalogMacro(tech, md.child("content"), w, h, AnalogMacro.SHOWN);
      blocks.add(Block.macro("B" + (i + 1), macro, at, md.between(0, 3)));
    }
  }

  private static double x(RectUm r, double share) {
    return r.xUm() + share * r.widthUm();
  }

  private static double y(RectUm r, double share) {
    return r.yUm() + share * r.heightUm();
  }

  /** A rectangle of logic, of real pieces on some dies. */
  void addLogic(Dice pd, RectUm area, LogicStyle common, boolean turned) {
    boolean t = pd.chance(0.9) ? turned : !turned;
    if (real.isPresent()
        && real.get().takes(LayoutBlock.Kind.LOGIC)
        && pd.chance(sparse ? 0.6 : 0.85)) {
      stamped.add(new StampedLogic(area, real.get(), pd.child("stamps"), t));
      return;
    }
    boolean hard = pd.chance(0.08);
    boolean usual = pd.chance(0.65);
    Dice own = pd.child("style");
    LogicStyle other = hard ? LogicStyle.draw(own, tech, true) : library(own);
    LogicStyle style = usual && !hard ? common : other;
    logic.add(new LogicArea(area, style, pd.child("rows"), t));
  }
}
