package org.diesurvey.classification;

/**
 * What a place of the photograph shows. The code is the value in label maps, the same as in truth
 * maps.
 */
public enum DieClass {
  /** Not on the die: background, package, neighbouring dies. */
  OFF_DIE(0, "off-die", '-'),
  /** Bit-cell arrays with their row and column periphery. */
  MEMORY_ARRAY(1, "memory array", 'M'),
  /** Analog, power, high-speed and other irregular but bounded blocks. */
  HARD_MACRO(2, "hard macro", 'H'),
  /** Synthesised standard-cell logic. */
  LOGIC(3, "logic", 'L'),
  /**
   * Frame of I/O cells and bond pads, from the die's outer frame to the inner edge of the I/O
   * cells.
   */
  PAD_RING(4, "pad ring", 'P'),
  /** No class: the evidence does not decide, the place is damaged, or it is empty. */
  UNCLEAR(255, "unclear", '?');

  private final int code;
  private final String label;
  private final char letter;

  DieClass(int code, String label, char letter) {
    this.code = code;
    this.label = label;
    this.letter = letter;
  }

  /** Value in label maps, 0 to 255. */
  public int code() {
    return code;
  }

  /** Name for people and documents. */
  public String label() {
    return label;
  }

  /** One letter for maps that must be read without colour. */
  public char letter() {
    return letter;
  }

  /** The class with this code; IllegalArgumentException where there is none. */
  public static DieClass ofCode(int code) {
    for (DieClass c : values()) {
      if (c.code == code) {
        return c;
      }
    }
    throw new IllegalArgumentException("no die class has the code " + code);
  }

  /** The class with this label; IllegalArgumentException where there is none. */
  public static DieClass ofLabel(String label) {
    for (DieClass c : values()) {
      if (c.label.equals(label)) {
        return c;
      }
    }
    throw new IllegalArgumentException("no die class is called '" + label + "'");
  }
}
