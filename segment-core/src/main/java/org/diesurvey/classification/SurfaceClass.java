package org.diesurvey.classification;

/**
 * What the texture of a tile can be, finer than the classes of the survey: a memory is its bit
 * cells and its periphery, and bare surface is told apart from logic. The order is the order of
 * probabilities in models.
 */
public enum SurfaceClass {
  /** Bit cells with their straps and tap rows. */
  BIT_CELLS(DieClass.MEMORY_ARRAY),
  /** Analog, power, high-speed and other irregular blocks. */
  MACRO(DieClass.HARD_MACRO),
  /** Rows of standard cells. */
  CELL_ROWS(DieClass.LOGIC),
  /** I/O cells and bond pads. */
  IO_CELLS(DieClass.PAD_RING),
  /** Decoders, sense amplifiers and control of a memory. */
  PERIPHERY(DieClass.MEMORY_ARRAY),
  /** Nothing placed: channels between blocks, unused area. */
  BARE(DieClass.UNCLEAR);

  /** How many there are. */
  public static final int COUNT = values().length;

  private final DieClass dieClass;

  SurfaceClass(DieClass dieClass) {
    this.dieClass = dieClass;
  }

  /** The survey class that this texture belongs to. */
  public DieClass dieClass() {
    return dieClass;
  }
}
