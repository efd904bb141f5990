package org.diesurvey.synthetic;

import java.util.List;

/** A rectangle of bit cells with straps, tap rows and dummy cells. */
final class CellArray {
  private final BitCell cell;
  private final Axis across;
  private final Axis down;
  private final int columns;
  private final int rows;
  private final boolean readOnly;
  private final double edgeLine;
  private final double presence;
  private final Dice content;

  private CellArray(
      BitCell cell, Axis across, Axis down, int columns, int rows, Rule rule, Dice dice) {
    this.cell = cell;
    this.across = across;
    this.down = down;
    this.columns = columns;
    this.rows = rows;
    this.readOnly = rule.readOnly();
    this.edgeLine = rule.edgeLine();
    this.presence = dice.uniform(0.3, 0.7);
    this.content = dice.child("content");
  }

  /** How the arrays of one macro repeat: shared by all its banks. */
  record Rule(
      BitCell cell,
      int strapEvery,
      int tapEvery,
      int seamColumns,
      int seamRows,
      double seamCells,
      double edgeLine,
      boolean readOnly) {
    /** No seams, no edge lines. */
    Rule(BitCell cell, int strapEvery, int tapEvery, boolean readOnly) {
      this(cell, strapEvery, tapEvery, 0, 0, 0, 0, readOnly);
    }

    static Rule draw(Dice dice, Technology tech) {
      boolean even = dice.chance(0.25);
      BitCell cell = BitCell.draw(dice.child("cell"), tech, even);
      int strap = dice.chance(0.45) ? dice.pickInt(4, 8, 8, 16, 16, 32, 32, 64) : 0;
      int tap = dice.chance(0.7) ? dice.pickInt(8, 16, 16, 16, 32, 32, 64) : 0;
      return new Rule(
          cell,
          strap,
          tap,
          !even && dice.chance(0.12) ? dice.pickInt(32, 64, 128) : 0,
          !even && dice.chance(0.15) ? dice.pickInt(32, 64, 128, 256) : 0,
          dice.uniform(1, 6),
          !even && dice.chance(0.3) ? dice.uniform(0.2, 0.9) : 0,
          dice.chance(0.12));
    }
  }

  static CellArray of(Rule rule, int columns, int rows, Dice dice) {
    BitCell c = rule.cell();
    Axis across =
        Axis.seamed(
            columns,
            c.width(),
            c.mirrorX(),
            rule.strapEvery(),
            c.strapUm(),
            rule.seamColumns(),
            rule.seamCells() * c.width());
    Axis down =
        Axis.seamed(
            rows,
            c.height(),
            c.mirrorY(),
            rule.tapEvery(),
            c.tapUm(),
            rule.seamRows(),
            rule.seamCells() * c.height());
    return new CellArray(c, across, down, columns, rows, rule, dice);
  }

  /** The largest array of this rule within the size, at least 4 x 4 cells. */
  static CellArray within(Rule rule, double width, double height, Dice dice) {
    BitCell c = rule.cell();
    double strap = rule.strapEvery() > 0 ? c.strapUm() / rule.strapEvery() : 0;
    double tap = rule.tapEvery() > 0 ? c.tapUm() / rule.tapEvery() : 0;
    strap += rule.seamColumns() > 0 ? rule.seamCells() * c.width() / rule.seamColumns() : 0;
    tap += rule.seamRows() > 0 ? rule.seamCells() * c.height() / rule.seamRows() : 0;
    int columns = Math.max(4, (int) (width / (c.width() + strap)));
    int rows = Math.max(4, (int) (height / (c.height() + tap)));
    return of(rule, columns / 2 * 2, rows / 2 * 2, dice);
  }

  double width() {
    return across.length();
  }

  double height() {
    return down.length();
  }

  long bits() {
    return (long) columns * rows;
  }

  Axis across() {
    return across;
  }

  Axis down() {
    return down;
  }

  BitCell cell() {
    return cell;
  }

  void paint(Pen pen) {
    if (!pen.shows(0, 0, width(), height())) {
      return;
    }
    if (readOnly && cell.width() * cell.height() * pen.pxPerUm() * pen.pxPerUm() > 0.6) {
      paintReadOnly(pen);
    } else {
      pen.lattice(cell.shapes(), across, cell.width(), down, cell.height());
    }
    if (!across.straps().isEmpty()) {
      pen.lattice(
          cell.strap(),
          Axis.at(across.straps(), cell.strapUm()),
          cell.strapUm(),
          down,
          cell.height());
    }
    if (!down.straps().isEmpty()) {
      pen.lattice(
          cell.tap(), across, cell.width(), Axis.at(down.straps(), cell.tapUm()), cell.tapUm());
    }
    if (edgeLine > 0) {
      // The outermost cells are dummies, tied off by a line.
      double line = edgeLine * Math.min(cell.width(), cell.height());
      pen.ring(0, 0, width(), height(), line, 1);
    }
    pen.label(SurfaceLabel.MEMORY_ARRAY, 0, 0, width(), height());
  }

  /** Each bit of a mask-programmed memory keeps or loses one shape of the cell. */
  private void paintReadOnly(Pen pen) {
    List<Shape> all = cell.shapes();
    int kept = Math.max(1, all.size() / 2);
    pen.lattice(all.subList(0, kept), across, cell.width(), down, cell.height());
    double w = cell.width() * 0.4;
    double h = cell.height() * 0.45;
    Dice dice = content.child("bits");
    for (int r = 0; r < rows; r++) {
      for (int c = 0; c < columns; c++) {
        if (dice.chance(presence)) {
          pen.diffusion(across.start(c, 0.1 * w, 1.1 * w, cell.width()), down.origin(r), w, h);
        }
      }
    }
  }
}
