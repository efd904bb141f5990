package org.diesurvey.inspection;

import java.util.List;

/**
 * Which structures of a process node the photograph can show.
 *
 * @param nodeNm process node
 * @param apertureAssumed aperture used for the optics' limit where none was stated; 0 if stated
 * @param structures from the largest to the smallest
 */
public record NodeVerdict(double nodeNm, double apertureAssumed, List<Structure> structures) {
  /** What is looked for. */
  public enum Kind {
    BOND_PAD("bond pads"),
    HARD_MACRO("hard macros"),
    CELL_ROW("standard-cell rows"),
    BIT_CELL("bit-cell lattice"),
    GATE("single gates");

    private final String label;

    Kind(String label) {
      this.label = label;
    }

    /** Name for people. */
    public String label() {
      return label;
    }
  }

  /** What sets the limit. */
  public enum Limit {
    /** Rayleigh's distance. */
    OPTICS,
    /** Two pixels. */
    SAMPLING,
    /** The finest period that stands out of the photograph's noise. */
    PHOTOGRAPH
  }

  /** How a structure compares with the limit. */
  public enum Visibility {
    /** 1.5 times the limit or more: at least a third of its contrast arrives. */
    RESOLVABLE,
    /** From the limit to 1.5 times: a tenth to a third of its contrast arrives. */
    AT_THE_LIMIT,
    /** Below the limit. */
    NOT_RESOLVABLE
  }

  /**
   * @param kind what it is
   * @param sizeUm size assumed
   * @param source of that size
   * @param limit what sets the limit
   * @param limitUm the limit
   * @param visibility the verdict
   */
  public record Structure(
      Kind kind,
      double sizeUm,
      String source,
      Limit limit,
      double limitUm,
      Visibility visibility) {}

  /** Copies the list. */
  public NodeVerdict {
    structures = List.copyOf(structures);
  }
}
