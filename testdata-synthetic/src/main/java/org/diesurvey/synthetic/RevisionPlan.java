package org.diesurvey.synthetic;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/** Chooses what differs between two revisions of a floorplan, and makes both layouts. */
final class RevisionPlan {
  /** Smallest change, and smallest side of what is changed: 40 um with room for whole cells. */
  private static final double LEAST_UM = 45;

  private static final double FARTHEST_UM = 400;
  private static final int ATTEMPTS = 60;

  /** Distance between changes and to other blocks, beside the halo of the logic. */
  private static final double APART_UM = 8;

  private final Technology tech;
  private final Dice dice;
  private final Floorplan plan;
  private final double clearUm;
  private final List<Block> before;
  private final List<Block> after;
  private final List<LogicArea> edited = new ArrayList<>();
  private final List<RevisionChange> changes = new ArrayList<>();
  private final List<RectUm> touched = new ArrayList<>();

  private RevisionPlan(Technology tech, Dice dice, Floorplan plan, double haloUm) {
    this.tech = tech;
    this.dice = dice;
    this.plan = plan;
    this.clearUm = haloUm + APART_UM;
    this.before = new ArrayList<>(plan.blocks);
    this.after = new ArrayList<>(plan.blocks);
  }

  /**
   * Plans revisions of a floorplan.
   *
   * @param wanted number of changes; fewer are made where there is no room
   */
  static RevisionPlan of(Technology tech, Dice dice, Floorplan plan, double haloUm, int wanted) {
    RevisionPlan revisions = new RevisionPlan(tech, dice, plan, haloUm);
    for (int i = 0; i < wanted; i++) {
      Dice d = dice.child("change", i);
      int first = d.between(0, 5);
      boolean made = false;
      // What finds no room becomes a change of the next kind.
      for (int k = 0; k < 6 && !made; k++) {
        RevisionChange.Kind kind = RevisionChange.Kind.values()[(first + k) % 6];
        for (int attempt = 0; attempt < ATTEMPTS && !made; attempt++) {
          made = revisions.change(kind, d.child(kind.name(), attempt), i + 1);
        }
      }
    }
    return revisions;
  }

  List<RevisionChange> changes() {
    return List.copyOf(changes);
  }

  RevisionLayout first() {
    return layout(plan.die, plan.padRing, List.of(), before);
  }

  RevisionLayout second() {
    return layout(plan.die, plan.padRing, edited, after);
  }

  /**
   * The second revision on a die that has grown.
   *
   * @param side 0 top, 1 right, 2 bottom, 3 left
   */
  RevisionLayout secondGrown(int side, double byUm) {
    RectUm d = plan.die;
    RectUm core = plan.core;
    RectUm die =
        switch (side) {
          case 0 -> new RectUm(0, -byUm, d.widthUm(), d.heightUm() + byUm);
          case 1 -> new RectUm(0, 0, d.widthUm() + byUm, d.heightUm());
          case 2 -> new RectUm(0, 0, d.widthUm(), d.heightUm() + byUm);
          default -> new RectUm(-byUm, 0, d.widthUm() + byUm, d.heightUm());
        };
    RectUm strip =
        switch (side) {
          case 0 -> new RectUm(core.xUm(), core.yUm() - byUm, core.widthUm(), byUm);
          case 1 -> new RectUm(core.rightUm(), core.yUm(), byUm, core.heightUm());
          case 2 -> new RectUm(core.xUm(), core.bottomUm(), core.widthUm(), byUm);
          default -> new RectUm(core.xUm() - byUm, core.yUm(), byUm, core.heightUm());
        };
    List<LogicArea> more = new ArrayList<>(edited);
    plan.logic.stream()
        .findFirst()
        .ifPresent(l -> more.add(new LogicArea(strip, l.style(), dice.child("strip"), l.turned())));
    return layout(die, plan.padRing.map(r -> r.grown(side, byUm)), more, after);
  }

  private RevisionLayout layout(
      RectUm die, Optional<PadRing> ring, List<LogicArea> own, List<Block> blocks) {
    return new RevisionLayout(
        die, plan.sealed.xUm(), ring, plan.logic, own, blocks, plan.filled, plan.bumps);
  }

  private boolean change(RevisionChange.Kind kind, Dice d, int number) {
    return switch (kind) {
      case MOVED -> moved(d);
      case RESIZED -> resized(d, "R" + number);
      case CLASS -> reclassed(d, "C" + number);
      case TEXTURE -> d.chance(0.5) ? editedLogic(d) : refilled(d, "T" + number);
      case NEW -> added(d, "N" + number);
      case GONE -> removed(d);
    };
  }

  private boolean moved(Dice d) {
    Optional<Block> site = site(d);
    if (site.isEmpty()) {
      return false;
    }
    Block b = site.get();
    double distance = d.logUniform(LEAST_UM, FARTHEST_UM);
    boolean straight = d.chance(0.7);
    double slope = straight ? 0 : d.uniform(0.2, 1.3);
    boolean along = d.chance(0.5);
    double u = d.signed(distance * Math.cos(slope));
    double v = d.signed(distance * Math.sin(slope));
    double dx = along ? u : v;
    double dy = along ? v : u;
    RectUm r = b.rect();
    RectUm to = new RectUm(r.xUm() + dx, r.yUm() + dy, r.widthUm(), r.heightUm());
    if (!free(to, b)) {
      return false;
    }
    BlockTruth t = b.truth();
    BlockTruth there =
        new BlockTruth(
            t.id(),
            t.surface(),
            t.description(),
            to,
            t.holesUm(),
            t.arraysUm().stream()
                .map(a -> new RectUm(a.xUm() + dx, a.yUm() + dy, a.widthUm(), a.heightUm()))
                .toList(),
            t.bits(),
            t.nand2Equivalents(),
            t.bitCellWidthUm(),
            t.bitCellHeightUm(),
            t.turned());
    Block placed = new Block(there, pen -> b.painter().paint(pen.at(dx, dy)));
    return replace(RevisionChange.Kind.MOVED, b, b, placed, t.description());
  }

  private boolean resized(Dice d, String id) {
    Optional<Block> site = site(d);
    if (site.isEmpty()) {
      return false;
    }
    RectUm r = site.get().rect();
    boolean wide = d.chance(0.5);
    boolean both = d.chance(0.25);
    double by = d.logUniform(LEAST_UM, FARTHEST_UM / 2) * (d.chance(0.5) ? 1 : -1);
    double w = r.widthUm() + (wide || both ? by : 0);
    double h = r.heightUm() + (!wide || both ? by : 0);
    int corner = d.between(0, 3);
    Optional<Block> first;
    Optional<Block> second;
    if (site.get().truth().surface() == SurfaceLabel.MEMORY_ARRAY) {
      CellArray.Rule rule = CellArray.Rule.draw(d.child("rule"), tech);
      first = memory(d, rule, id, r, corner, r.widthUm(), r.heightUm());
      second = memory(d, rule, id, r, corner, w, h);
    } else {
      first = macro(d.child("content"), id, r, corner, r.widthUm(), r.heightUm(), "");
      second = macro(d.child("content"), id, r, corner, w, h, "");
    }
    if (first.isEmpty() || second.isEmpty()) {
      return false;
    }
    RectUm a = first.get().rect();
    RectUm b = second.get().rect();
    double change =
        Math.max(Math.abs(a.widthUm() - b.widthUm()), Math.abs(a.heightUm() - b.heightUm()));
    boolean good = change >= 0.95 * LEAST_UM && free(a, site.get()) && free(b, site.get());
    return good
        && replace(
            RevisionChange.Kind.RESIZED,
            site.get(),
            first.get(),
            second.get(),
            first.get().truth().description());
  }

  private boolean reclassed(Dice d, String id) {
    Optional<Block> site = site(d);
    if (site.isEmpty()) {
      return false;
    }
    RectUm r = site.get().rect();
    CellArray.Rule rule = CellArray.Rule.draw(d.child("rule"), tech);
    Optional<Block> memory = memory(d, rule, id, r, 0, r.widthUm(), r.heightUm());
    if (memory.isEmpty() || !free(memory.get().rect(), site.get())) {
      return false;
    }
    RectUm same = memory.get().rect();
    Optional<Block> macro =
        macro(d.child("content"), id, same, 0, same.widthUm(), same.heightUm(), "");
    boolean toMemory = d.chance(0.5);
    return macro.isPresent()
        && replace(
            RevisionChange.Kind.CLASS,
            site.get(),
            toMemory ? macro.get() : memory.get(),
            toMemory ? memory.get() : macro.get(),
            toMemory ? "macro replaced by memory" : "memory replaced by macro");
  }

  private boolean refilled(Dice d, String id) {
    Optional<Block> site = site(d);
    if (site.isEmpty() || site.get().truth().surface() != SurfaceLabel.HARD_MACRO) {
      return false;
    }
    RectUm r = site.get().rect();
    Optional<Block> first = macro(d.child("content"), id, r, 0, r.widthUm(), r.heightUm(), "");
    if (first.isEmpty()) {
      return false;
    }
    Optional<Block> second =
        macro(
            d.child("other"),
            id,
            r,
            0,
            r.widthUm(),
            r.heightUm(),
            first.get().truth().description());
    return second.isPresent()
        && replace(
            RevisionChange.Kind.TEXTURE,
            site.get(),
            first.get(),
            second.get(),
            first.get().truth().description()
                + " replaced by "
                + second.get().truth().description());
  }

  private boolean editedLogic(Dice d) {
    if (plan.logic.isEmpty()) {
      return false;
    }
    LogicArea area = plan.logic.get(d.between(0, plan.logic.size() - 1));
    RectUm all = area.rows();
    // Whole pairs of rows and whole sites, so that the rows run through.
    double pair = 2 * area.style().rowUm() + area.style().rowGapUm();
    double site = area.style().siteUm();
    double stepX = area.turned() ? pair : site;
    double stepY = area.turned() ? site : pair;
    double w = StrictMath.ceil(d.logUniform(LEAST_UM, 260) / stepX) * stepX;
    double h = StrictMath.ceil(d.logUniform(LEAST_UM, 260) / stepY) * stepY;
    if (w > all.widthUm() || h > all.heightUm()) {
      return false;
    }
    double x = Math.floor(d.uniform(0, all.widthUm() - w) / stepX) * stepX;
    double y = Math.floor(d.uniform(0, all.heightUm() - h) / stepY) * stepY;
    RectUm r = new RectUm(all.xUm() + x, all.yUm() + y, w, h);
    if (!free(r, null)) {
      return false;
    }
    edited.add(new LogicArea(r, area.style(), d.child("cells"), area.turned()));
    touched.add(r);
    changes.add(
        new RevisionChange(
            RevisionChange.Kind.TEXTURE, Optional.of(r), Optional.of(r), "logic placed anew"));
    return true;
  }

  private boolean added(Dice d, String id) {
    if (plan.logic.isEmpty()) {
      return false;
    }
    LogicArea area = plan.logic.get(d.between(0, plan.logic.size() - 1));
    double w = d.logUniform(LEAST_UM, 300);
    double h = Math.max(LEAST_UM, w * d.logUniform(0.5, 2));
    List<Block> all = Stream.concat(before.stream(), after.stream()).toList();
    Optional<RectUm> place = FreePlace.find(d, area.area(), all, new RectUm(0, 0, w, h), clearUm);
    if (place.isEmpty()) {
      return false;
    }
    RectUm r = place.get();
    Optional<Block> block =
        d.chance(0.5)
            ? macro(d.child("content"), id, r, 0, w, h, "")
            : memory(d, CellArray.Rule.draw(d.child("rule"), tech), id, r, 0, w, h);
    if (block.isEmpty() || !free(block.get().rect(), null)) {
      return false;
    }
    after.add(block.get());
    touched.add(block.get().rect());
    changes.add(
        new RevisionChange(
            RevisionChange.Kind.NEW,
            Optional.empty(),
            Optional.of(block.get().rect()),
            block.get().truth().description()));
    return true;
  }

  private boolean removed(Dice d) {
    Optional<Block> site = site(d);
    if (site.isEmpty()) {
      return false;
    }
    after.remove(site.get());
    touched.add(site.get().rect());
    changes.add(
        new RevisionChange(
            RevisionChange.Kind.GONE,
            Optional.of(site.get().rect()),
            Optional.empty(),
            site.get().truth().description()));
    return true;
  }

  /** A block that may be changed: large enough, within logic, away from other changes. */
  private Optional<Block> site(Dice d) {
    if (plan.blocks.isEmpty()) {
      return Optional.empty();
    }
    Block b = plan.blocks.get(d.between(0, plan.blocks.size() - 1));
    boolean large = Math.min(b.rect().widthUm(), b.rect().heightUm()) >= LEAST_UM;
    boolean shows = !b.truth().description().contains("dull");
    boolean there = before.contains(b) && after.contains(b);
    return large && shows && there && free(b.rect(), b) ? Optional.of(b) : Optional.empty();
  }

  /**
   * Whether a rectangle lies in one area of logic, away from changes and from all blocks but one;
   * within that one it may be as close to others as it was.
   */
  private boolean free(RectUm r, Block own) {
    RectUm wide = r.grown(clearUm);
    boolean inside = own != null && own.rect().contains(r);
    return plan.logic.stream().anyMatch(l -> l.area().contains(r))
        && touched.stream().noneMatch(t -> t.overlaps(wide))
        && (inside
            || Stream.concat(before.stream(), after.stream())
                .filter(b -> b != own)
                .noneMatch(b -> b.rect().overlaps(wide)));
  }

  private boolean replace(
      RevisionChange.Kind kind, Block site, Block first, Block second, String description) {
    before.set(before.indexOf(site), first);
    after.set(after.indexOf(site), second);
    touched.add(first.rect());
    touched.add(second.rect());
    changes.add(
        new RevisionChange(
            kind, Optional.of(first.rect()), Optional.of(second.rect()), description));
    return true;
  }

  /** A memory of about the size, one corner kept: 0 upper left, 1 right, 2 lower, 3 both. */
  private Optional<Block> memory(
      Dice d, CellArray.Rule rule, String id, RectUm r, int corner, double w, double h) {
    if (Math.min(w, h) < LEAST_UM) {
      return Optional.empty();
    }
    MemoryMacro m = MemoryMacro.draw(d.child("memory"), tech, rule, w, h);
    if (Math.min(m.width(), m.height()) < 0.9 * LEAST_UM) {
      return Optional.empty();
    }
    double x = (corner & 1) == 0 ? r.xUm() : r.rightUm() - m.width();
    double y = (corner & 2) == 0 ? r.yUm() : r.bottomUm() - m.height();
    return Optional.of(Block.memory(id, m, x, y, 0));
  }

  /** A macro that shows something at this layer, and is not of the description to avoid. */
  private Optional<Block> macro(
      Dice content, String id, RectUm r, int corner, double w, double h, String avoid) {
    AnalogMacro m = new AnalogMacro(tech, content, w, h);
    if (Math.min(w, h) < LEAST_UM
        || m.kind() == AnalogMacro.Kind.DULL
        || m.kind() == AnalogMacro.Kind.SPARSE) {
      return Optional.empty();
    }
    double x = (corner & 1) == 0 ? r.xUm() : r.rightUm() - w;
    double y = (corner & 2) == 0 ? r.yUm() : r.bottomUm() - h;
    Block b = Block.macro(id, m, new RectUm(x, y, w, h), 0);
    return b.truth().description().equals(avoid) ? Optional.empty() : Optional.of(b);
  }
}
