package org.diesurvey.synthetic;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * What lies on one revision of a die. Blocks and logic are placed in the frame of the first
 * revision; the die may reach beyond it.
 *
 * @param die the die in the frame of the first revision
 * @param sealUm width of the seal ring
 * @param ring ring in the frame of this die itself
 * @param logic logic that both revisions share
 * @param edited logic placed again in this revision, instead of the shared
 * @param blocks memories and macros
 * @param filled dummy fill
 * @param bumps imprints of bumps
 */
record RevisionLayout(
    RectUm die,
    double sealUm,
    Optional<PadRing> ring,
    List<LogicArea> logic,
    List<LogicArea> edited,
    List<Block> blocks,
    List<RectUm> filled,
    List<RectUm> bumps) {

  RevisionLayout {
    logic = List.copyOf(logic);
    edited = List.copyOf(edited);
    blocks = List.copyOf(blocks);
    filled = List.copyOf(filled);
    bumps = List.copyOf(bumps);
  }

  /** The die with its corner at the origin. */
  RectUm dieAtOrigin() {
    return new RectUm(0, 0, die.widthUm(), die.heightUm());
  }

  /** Holes that the shared logic leaves. */
  private List<RectUm> holes(double haloUm) {
    return Stream.concat(
            blocks.stream().map(b -> b.rect().grown(haloUm)), edited.stream().map(LogicArea::area))
        .toList();
  }

  /**
   * Paints the die with its corner at the origin of the canvas frame.
   *
   * @param haloUm distance that logic keeps from blocks
   * @param dice the same for all revisions of a die, so that what they share looks the same
   * @return truth of the blocks, in the frame of the canvas
   */
  List<BlockTruth> paint(Canvas canvas, double haloUm, Dice dice) {
    Pen die = Pen.on(canvas);
    Pen layout = die.at(-this.die.xUm(), -this.die.yUm());
    List<BlockTruth> truths = new ArrayList<>();
    RectUm whole = dieAtOrigin();
    canvas.label(SurfaceLabel.SEAL_RING, whole);
    canvas.label(SurfaceLabel.EMPTY, whole.grown(-sealUm));
    SealRing.paint(die, whole, sealUm, dice.child("seal"));
    ring.ifPresent(
        r -> {
          r.paint(canvas, false);
          truths.add(plain("PAD", SurfaceLabel.PAD_RING, "pad ring", r.outer(), r.inner()));
          canvas.label(SurfaceLabel.EMPTY, r.inner());
        });
    List<RectUm> holes = holes(haloUm);
    for (LogicArea area : logic) {
      List<RectUm> own = holes.stream().filter(h -> h.overlaps(area.area())).toList();
      truths.add(logicTruth("L", truths.size(), area, own, area.paintAnchored(layout, own)));
    }
    for (LogicArea area : edited) {
      long nand2 = area.paintAnchored(layout, List.of());
      truths.add(logicTruth("E", truths.size(), area, List.of(), nand2));
    }
    for (RectUm r : filled) {
      Devices.fill(layout.at(r.xUm(), r.yUm()), dice.child("fill"), r.widthUm(), r.heightUm());
    }
    for (Block b : blocks) {
      canvas.clear(moved(b.rect().grown(1)));
      b.painter().paint(layout);
      truths.add(moved(b.truth()));
    }
    paintBumps(layout, dice.child("bumps"));
    return truths;
  }

  /** Centres of bond pads or bumps, in the frame of the canvas; known once painted. */
  List<PointUm> padCentres() {
    return ring.map(PadRing::padCentres)
        .orElse(
            bumps.stream()
                .map(this::moved)
                .map(b -> new PointUm(b.xUm() + b.widthUm() / 2, b.yUm() + b.heightUm() / 2))
                .toList());
  }

  private void paintBumps(Pen layout, Dice dice) {
    double weight = dice.signed(1);
    for (RectUm b : bumps) {
      Devices.imprint(layout, b, weight);
    }
  }

  private RectUm moved(RectUm r) {
    return new RectUm(r.xUm() - die.xUm(), r.yUm() - die.yUm(), r.widthUm(), r.heightUm());
  }

  private BlockTruth moved(BlockTruth t) {
    return new BlockTruth(
        t.id(),
        t.surface(),
        t.description(),
        moved(t.outlineUm()),
        t.holesUm().stream().map(this::moved).toList(),
        t.arraysUm().stream().map(this::moved).toList(),
        t.bits(),
        t.nand2Equivalents(),
        t.bitCellWidthUm(),
        t.bitCellHeightUm(),
        t.turned());
  }

  private BlockTruth logicTruth(
      String letter, int number, LogicArea area, List<RectUm> holes, long nand2) {
    return new BlockTruth(
        letter + (number + 1),
        SurfaceLabel.LOGIC,
        "standard-cell logic",
        moved(area.rows()),
        holes.stream().map(this::moved).toList(),
        List.of(),
        0,
        nand2,
        0,
        0,
        false);
  }

  private static BlockTruth plain(
      String id, byte surface, String description, RectUm outer, RectUm hole) {
    return new BlockTruth(
        id, surface, description, outer, List.of(hole), List.of(), 0, 0, 0, 0, false);
  }
}
