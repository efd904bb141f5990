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

  /**
   * @param blocks memories and macros; grow
   * @param logic drawn logic; grows
   * @param stamped logic of real pieces; grows
   */
  WideContents(
      Technology tech,
      Optional<LayoutChoice> real,
      RectUm core,
      List<Block> blocks,
      List<LogicArea> logic,
      List<StampedLogic> stamped) {
    this.tech = tech;
    this.real = real;
    this.core = core;
    this.blocks = blocks;
    this.logic = logic;
    this.stamped = stamped;
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
    LogicStyle common = LogicStyle.draw(d.child("library"), tech, false);
    boolean turned = d.chance(0.25);
    List<Block> taken = new ArrayList<>(blocks);
    for (int i = 0; i < count; i++) {
      Dice pd = d.child("part", i);
      double most = Math.min(core.widthUm(), core.heightUm());
      double side = pd.logUniform(Math.min(60, most * 0.2), most * 0.5);
      double aspect = pd.logUniform(0.3, 3.5);
      double w = side * Math.sqrt(aspect);
      double h = side / Math.sqrt(aspect);
      if (pd.chance(0.12)) {
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

  /** A rectangle of logic, of real pieces on some dies. */
  void addLogic(Dice pd, RectUm area, LogicStyle common, boolean turned) {
    boolean t = pd.chance(0.9) ? turned : !turned;
    if (real.isPresent() && real.get().takes(LayoutBlock.Kind.LOGIC) && pd.chance(0.85)) {
      stamped.add(new StampedLogic(area, real.get(), pd.child("stamps"), t));
      return;
    }
    boolean hard = pd.chance(0.08);
    LogicStyle style =
        pd.chance(0.65) && !hard ? common : LogicStyle.draw(pd.child("style"), tech, hard);
    logic.add(new LogicArea(area, style, pd.child("rows"), t));
  }
}
