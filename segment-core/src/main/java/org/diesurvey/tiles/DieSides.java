package org.diesurvey.tiles;

/**
 * Which sides of the tile grid are the die's own edges; the others are borders of the photograph,
 * beyond which the die goes on.
 *
 * @param left first column
 * @param top first row
 * @param right last column
 * @param bottom last row
 */
public record DieSides(boolean left, boolean top, boolean right, boolean bottom) {
  /** The whole die is seen. */
  public static final DieSides ALL = new DieSides(true, true, true, true);

  /** A photograph without any edge of the die. */
  public static final DieSides NONE = new DieSides(false, false, false, false);

  /** Whether all four edges are seen. */
  public boolean all() {
    return left && top && right && bottom;
  }

  /** Whether any edge is seen. */
  public boolean any() {
    return left || top || right || bottom;
  }
}
