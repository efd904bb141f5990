package org.diesurvey.synthetic;

import java.util.List;

/** A placed block: its truth and how it is painted into the die frame. */
record Block(BlockTruth truth, Painter painter) {
  /** Paints a block; the pen draws in the die frame. */
  interface Painter {
    void paint(Pen die);
  }

  RectUm rect() {
    return truth.outlineUm();
  }

  /** A memory placed with its upper left corner at (x, y), turned and mirrored as pens are. */
  static Block memory(String id, MemoryMacro macro, double x, double y, int orientation) {
    boolean turned = (orientation & 4) != 0;
    double w = turned ? macro.height() : macro.width();
    double h = turned ? macro.width() : macro.height();
    Pen frame =
        Pen.on(new Canvas(new RectUm(0, 0, 1, 1), 1))
            .block(x, y, macro.width(), macro.height(), orientation);
    List<RectUm> arrays =
        macro.arrayRects().stream()
            .map(r -> frame.placed(r.xUm(), r.yUm(), r.widthUm(), r.heightUm()))
            .toList();
    BitCell cell = macro.rule().cell();
    BlockTruth truth =
        new BlockTruth(
            id,
            SurfaceLabel.MEMORY_ARRAY,
            macro.rule().readOnly() ? "mask-programmed memory" : "memory, " + cell.kind(),
            new RectUm(x, y, w, h),
            List.of(),
            arrays,
            macro.bits(),
            0,
            cell.width(),
            cell.height(),
            turned);
    return new Block(
        truth, die -> macro.paint(die.block(x, y, macro.width(), macro.height(), orientation)));
  }

  /** A hard macro in a rectangle of its own size, mirrored as pens are. */
  static Block macro(String id, AnalogMacro macro, RectUm r, int turn) {
    String kind = macro.kind().name().toLowerCase(java.util.Locale.ROOT).replace('_', ' ');
    return macro(id, kind, macro::paint, r, turn);
  }

  static Block macro(String id, String kind, Block.Painter content, RectUm r, int turn) {
    BlockTruth truth =
        new BlockTruth(
            id,
            SurfaceLabel.HARD_MACRO,
            "hard macro, " + kind,
            r,
            List.of(),
            List.of(),
            0,
            0,
            0,
            0,
            false);
    return new Block(
        truth, die -> content.paint(die.block(r.xUm(), r.yUm(), r.widthUm(), r.heightUm(), turn)));
  }
}
