package org.diesurvey.synthetic;

/** A placed block: its truth and how it is painted into the die frame. */
record Block(BlockTruth truth, Painter painter) {
  /** Paints a block; the pen draws in the die frame. */
  interface Painter {
    void paint(Pen die);
  }

  RectUm rect() {
    return truth.outlineUm();
  }
}
