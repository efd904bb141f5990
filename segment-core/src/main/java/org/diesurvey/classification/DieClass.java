package org.diesurvey.classification;

import org.diesurvey.Supported;

/**
 * What a place of the photograph shows. The code is the value in label maps, the same as in truth
 * maps.
 */
@Supported
public enum DieClass {
  /** Not on the die: background, package, neighbouring dies. */
  OFF_DIE(0, "off-die", "OFF"),
  /** Bit-cell arrays with their row and column periphery. */
  MEMORY_ARRAY(1, "memory array", "MEM"),
  /** Analog, power, high-speed and other irregular but bounded blocks. */
  HARD_MACRO(2, "hard macro", "MAC"),
  /** Synthesised standard-cell logic. */
  LOGIC(3, "logic", "LOG"),
  /**
   * Frame of I/O cells and bond pads, from the die's outer frame to the inner edge of the I/O
   * cells.
   */
  PAD_RING(4, "pad ring", "PAD"),
  /** No class: the evidence does not decide, the place is damaged, or it is empty. */
  UNCLEAR(255, "unclear", "UNC");

  private final int code;
  private final String label;
  private final String shortName;

  DieClass(int code, String label, String shortName) {
    this.code = code;
    this.label = label;
    this.shortName = shortName;
  }

  /** Value in label maps, 0 to 255. */
  public int code() {
    return code;
  }

  /** Name for people and documents. */
  public String label() {
    return label;
  }

  /** Three letters; with a number behind them they name a region, for example {@code MEM1}. */
  public String shortName() {
    return shortName;
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
