package org.diesurvey.regions.ring;

import org.diesurvey.preparation.edges.DieSide;

/**
 * Depth of the pad ring on each side of the upright die, in px of the upright raster; 0 where a
 * side has none.
 *
 * @param left from the left die edge to the inner edge of the I/O cells
 * @param upper from the upper die edge
 * @param right from the right die edge
 * @param lower from the lower die edge
 * @param margin bare ground between the die edge and the ring, the same on all sides that have one;
 *     0 where the ring begins at the die's outer frame
 */
public record PadRing(double left, double upper, double right, double lower, double margin) {
  /** No ring at all. */
  public static final PadRing NONE = new PadRing(0, 0, 0, 0);

  /** A ring that begins at the die's outer frame. */
  public PadRing(double left, double upper, double right, double lower) {
    this(left, upper, right, lower, 0);
  }

  /** Depth on a side. */
  public double depth(DieSide side) {
    return switch (side) {
      case LEFT -> left;
      case UPPER -> upper;
      case RIGHT -> right;
      case LOWER -> lower;
    };
  }

  /** Whether any side has I/O cells. */
  public boolean present() {
    return left + upper + right + lower > 0;
  }
}
