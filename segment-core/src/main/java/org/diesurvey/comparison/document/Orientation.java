package org.diesurvey.comparison.document;

import org.diesurvey.Supported;

/**
 * The eight ways to lay a rectangle's axes on another's: turned by quarter turns, perhaps mirrored
 * first. As a map from the first die (y up) to the second.
 */
@Supported
public enum Orientation {
  R0("as it is", 1, 0, 0, 1),
  R90("turned by 90° anticlockwise", 0, -1, 1, 0),
  R180("turned by 180°", -1, 0, 0, -1),
  R270("turned by 90° clockwise", 0, 1, -1, 0),
  M0("mirrored left to right", -1, 0, 0, 1),
  M90("mirrored left to right, then turned by 90° anticlockwise", 0, -1, -1, 0),
  M180("mirrored top to bottom", 1, 0, 0, -1),
  M270("mirrored left to right, then turned by 90° clockwise", 0, 1, 1, 0);

  private final String label;
  private final int xx;
  private final int xy;
  private final int yx;
  private final int yy;

  Orientation(String label, int xx, int xy, int yx, int yy) {
    this.label = label;
    this.xx = xx;
    this.xy = xy;
    this.yx = yx;
    this.yy = yy;
  }

  /** For people: how the second die lies against the first. */
  public String label() {
    return label;
  }

  /** Whether the die is seen from its other side or the picture was mirrored. */
  public boolean mirrored() {
    return xx * yy - xy * yx < 0;
  }

  /** Whether width and height change places. */
  public boolean swapsSides() {
    return xx == 0;
  }

  /** x in the second die from x in the first. */
  public int xx() {
    return xx;
  }

  /** x in the second die from y in the first. */
  public int xy() {
    return xy;
  }

  /** y in the second die from x in the first. */
  public int yx() {
    return yx;
  }

  /** y in the second die from y in the first. */
  public int yy() {
    return yy;
  }
}
