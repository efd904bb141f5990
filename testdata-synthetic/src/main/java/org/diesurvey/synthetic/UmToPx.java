package org.diesurvey.synthetic;

/**
 * Affine map from the die frame (um, origin at the upper left die corner, y down) to photo pixels
 * (origin at the outer corner of the first pixel).
 */
public record UmToPx(double xx, double xy, double x0, double yx, double yy, double y0) {
  /**
   * Photo column of a point.
   *
   * @param p point in the die frame
   */
  public double columnPx(PointUm p) {
    return xx * p.xUm() + xy * p.yUm() + x0;
  }

  /**
   * Photo row of a point.
   *
   * @param p point in the die frame
   */
  public double rowPx(PointUm p) {
    return yx * p.xUm() + yy * p.yUm() + y0;
  }

  /**
   * The point seen at a photo position.
   *
   * @param columnPx column
   * @param rowPx row
   */
  public PointUm pointUm(double columnPx, double rowPx) {
    double det = xx * yy - xy * yx;
    double u = columnPx - x0;
    double v = rowPx - y0;
    return new PointUm((yy * u - xy * v) / det, (xx * v - yx * u) / det);
  }

  static UmToPx turned(double umPerPx, double rotationDeg, PointUm from, double toX, double toY) {
    double a = StrictMath.toRadians(rotationDeg);
    double c = StrictMath.cos(a) / umPerPx;
    double s = StrictMath.sin(a) / umPerPx;
    return new UmToPx(
        c, -s, toX - c * from.xUm() + s * from.yUm(), s, c, toY - s * from.xUm() - c * from.yUm());
  }
}
