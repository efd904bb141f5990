package org.diesurvey.synthetic;

import java.util.List;

/**
 * Rectangle in the die frame.
 *
 * @param xUm left side
 * @param yUm upper side
 * @param widthUm width, at least 0
 * @param heightUm height, at least 0
 */
public record RectUm(double xUm, double yUm, double widthUm, double heightUm) {
  /** Checks the size. */
  public RectUm {
    if (!(widthUm >= 0 && heightUm >= 0)) {
      throw new IllegalArgumentException(
          "width and height must be at least 0 um, were " + widthUm + " x " + heightUm);
    }
  }

  /** Right side in um. */
  public double rightUm() {
    return xUm + widthUm;
  }

  /** Lower side in um. */
  public double bottomUm() {
    return yUm + heightUm;
  }

  /** Area in um2. */
  public double areaUm2() {
    return widthUm * heightUm;
  }

  /**
   * The same centre, each side moved outwards.
   *
   * @param byUm distance; negative shrinks
   */
  public RectUm grown(double byUm) {
    return new RectUm(
        xUm - byUm, yUm - byUm, Math.max(0, widthUm + 2 * byUm), Math.max(0, heightUm + 2 * byUm));
  }

  /**
   * Whether the two share area.
   *
   * @param other another rectangle
   */
  public boolean overlaps(RectUm other) {
    return xUm < other.rightUm()
        && other.xUm < rightUm()
        && yUm < other.bottomUm()
        && other.yUm < bottomUm();
  }

  /**
   * Whether the other lies inside this one.
   *
   * @param other another rectangle
   */
  public boolean contains(RectUm other) {
    return other.xUm >= xUm - 1e-9
        && other.yUm >= yUm - 1e-9
        && other.rightUm() <= rightUm() + 1e-9
        && other.bottomUm() <= bottomUm() + 1e-9;
  }

  /** Corners, clockwise on the screen from the upper left. */
  public List<PointUm> corners() {
    return List.of(
        new PointUm(xUm, yUm),
        new PointUm(rightUm(), yUm),
        new PointUm(rightUm(), bottomUm()),
        new PointUm(xUm, bottomUm()));
  }
}
