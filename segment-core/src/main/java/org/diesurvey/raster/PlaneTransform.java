package org.diesurvey.raster;

import org.diesurvey.Supported;

/**
 * An affine map of the plane: x' = a x + b y + c, y' = d x + e y + f. Used between pixel frames and
 * the die frame.
 *
 * @param a x from x
 * @param b x from y
 * @param c x offset
 * @param d y from x
 * @param e y from y
 * @param f y offset
 */
@Supported
public record PlaneTransform(double a, double b, double c, double d, double e, double f)
    implements PlaneMap {
  /** The map that changes nothing. */
  public static final PlaneTransform IDENTITY = new PlaneTransform(1, 0, 0, 0, 1, 0);

  @Override
  public double x(double x, double y) {
    return a * x + b * y + c;
  }

  @Override
  public double y(double x, double y) {
    return d * x + e * y + f;
  }

  /** The map back; fails with IllegalArgumentException where there is none. */
  @Override
  public PlaneTransform inverse() {
    double det = a * e - b * d;
    if (Math.abs(det) < 1e-12) {
      throw new IllegalArgumentException("transform has no inverse: " + this);
    }
    double ia = e / det;
    double ib = -b / det;
    double id = -d / det;
    double ie = a / det;
    return new PlaneTransform(ia, ib, -(ia * c + ib * f), id, ie, -(id * c + ie * f));
  }

  /** The map that applies this one first and {@code next} after it. */
  public PlaneTransform then(PlaneTransform next) {
    return new PlaneTransform(
        next.a * a + next.b * d,
        next.a * b + next.b * e,
        next.x(c, f),
        next.d * a + next.e * d,
        next.d * b + next.e * e,
        next.y(c, f));
  }
}
