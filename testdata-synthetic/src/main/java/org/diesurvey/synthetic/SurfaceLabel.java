package org.diesurvey.synthetic;

/** Codes of the fine label map: what the surface truly is at a pixel. */
public final class SurfaceLabel {
  /** Background beside the die. */
  public static final byte OFF_DIE = 0;

  /** Bit cells, with the straps and tap rows between them. */
  public static final byte MEMORY_ARRAY = 1;

  /** Analog, power or radio-frequency block. */
  public static final byte HARD_MACRO = 2;

  /** Standard-cell rows. */
  public static final byte LOGIC = 3;

  /** Frame of I/O cells and bond pads, corners included. */
  public static final byte PAD_RING = 4;

  /** Decoders, sense amplifiers and control inside a memory macro. */
  public static final byte MEMORY_PERIPHERY = 5;

  /** Channels, moats and unplaced area. */
  public static final byte EMPTY = 6;

  /** From the die edge to the outer frame of the pad ring. */
  public static final byte SEAL_RING = 7;

  /** Number of codes. */
  public static final int COUNT = 8;

  /** Value of the scoring map where nothing is scored. */
  public static final int UNSCORED = 255;

  private SurfaceLabel() {}

  /**
   * Code of the coarse map that scores are made against.
   *
   * @param surface fine code, 0..7
   * @return 0 off die, 1 memory array, 2 hard macro, 3 logic, 4 pad ring, 255 not scored
   */
  public static int scoring(byte surface) {
    return surface <= PAD_RING ? surface : UNSCORED;
  }
}
