package org.diesurvey.raster;

import java.util.List;

/**
 * A perspective map of the plane: x' = (a x + b y + c) / w, y' = (d x + e y + f) / w with w = g x +
 * h y + 1. It takes a flat rectangle to its picture from any side.
 *
 * @param a x from x
 * @param b x from y
 * @param c x offset
 * @param d y from x
 * @param e y from y
 * @param f y offset
 * @param g w from x
 * @param h w from y
 */
public record Homography(
    double a, double b, double c, double d, double e, double f, double g, double h)
    implements PlaneMap {

  /**
   * The map from a rectangle at the origin to a quadrangle (closed form: Heckbert, Fundamentals of
   * Texture Mapping and Image Warping, 1989, section 2.2.3; from memory, checked against OpenCV).
   *
   * @param width of the rectangle, above 0
   * @param height of the rectangle, above 0
   * @param corners images of the rectangle's corners (0, 0), (width, 0), (width, height), (0,
   *     height)
   * @throws IllegalArgumentException if three corners lie on a line
   */
  public static Homography ofRectangle(double width, double height, List<PixelPoint> corners) {
    PixelPoint p = corners.get(0);
    PixelPoint q = corners.get(1);
    PixelPoint r = corners.get(2);
    PixelPoint s = corners.get(3);
    double sumX = p.x() - q.x() + r.x() - s.x();
    double sumY = p.y() - q.y() + r.y() - s.y();
    double dx1 = q.x() - r.x();
    double dx2 = s.x() - r.x();
    double dy1 = q.y() - r.y();
    double dy2 = s.y() - r.y();
    double det = dx1 * dy2 - dx2 * dy1;
    if (Math.abs(det) < 1e-9) {
      throw new IllegalArgumentException("three corners lie on a line: " + corners);
    }
    double g = (sumX * dy2 - dx2 * sumY) / det;
    double h = (dx1 * sumY - sumX * dy1) / det;
    return new Homography(
        (q.x() - p.x() + g * q.x()) / width,
        (s.x() - p.x() + h * s.x()) / height,
        p.x(),
        (q.y() - p.y() + g * q.y()) / width,
        (s.y() - p.y() + h * s.y()) / height,
        p.y(),
        g / width,
        h / height);
  }

  /**
   * The map back.
   *
   * @throws IllegalArgumentException if the map flattens the plane
   */
  @Override
  public Homography inverse() {
    // Adjugate of the 3 x 3 matrix, divided by its last element.
    double last = a * e - b * d;
    if (last == 0) {
      throw new IllegalArgumentException("a flat homography has no inverse");
    }
    return new Homography(
        (e - f * h) / last,
        (c * h - b) / last,
        (b * f - c * e) / last,
        (f * g - d) / last,
        (a - c * g) / last,
        (c * d - a * f) / last,
        (d * h - e * g) / last,
        (b * g - a * h) / last);
  }

  @Override
  public double x(double x, double y) {
    return (a * x + b * y + c) / (g * x + h * y + 1);
  }

  @Override
  public double y(double x, double y) {
    return (d * x + e * y + f) / (g * x + h * y + 1);
  }

  /** Length of the image of a short step in x, over that step. */
  public double stretchX(double x, double y) {
    double w = g * x + h * y + 1;
    return Math.hypot(a - x(x, y) * g, d - y(x, y) * g) / Math.abs(w);
  }

  /** Length of the image of a short step in y, over that step. */
  public double stretchY(double x, double y) {
    double w = g * x + h * y + 1;
    return Math.hypot(b - x(x, y) * h, e - y(x, y) * h) / Math.abs(w);
  }

  /** The map for inputs moved by (x, y) first: applied to 0, 0 it gives what this gives to x, y. */
  public Homography movedInput(double x, double y) {
    double w = g * x + h * y + 1;
    return new Homography(
        a / w, b / w, (a * x + b * y + c) / w, d / w, e / w, (d * x + e * y + f) / w, g / w, h / w);
  }

  /** This map with an affine map applied to its results. */
  public Homography then(PlaneTransform next) {
    return new Homography(
        next.a() * a + next.b() * d + next.c() * g,
        next.a() * b + next.b() * e + next.c() * h,
        next.a() * c + next.b() * f + next.c(),
        next.d() * a + next.e() * d + next.f() * g,
        next.d() * b + next.e() * e + next.f() * h,
        next.d() * c + next.e() * f + next.f(),
        g,
        h);
  }
}
