package org.diesurvey.estimates;

import org.diesurvey.Supported;

/** What is estimated. */
@Supported
public enum AmountKind {
  /** Stored bits. */
  BITS("bits"),
  /** Logic in units of a two-input NAND. */
  NAND2("nand2_equivalents"),
  /** Transistors of the logic, four per NAND2-equivalent. */
  TRANSISTORS("logic_transistors");

  private final String label;

  AmountKind(String label) {
    this.label = label;
  }

  /** Name in documents. */
  public String label() {
    return label;
  }
}
