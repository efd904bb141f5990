package org.diesurvey.vision;

import org.diesurvey.raster.PixelRect;

/**
 * A component as a strip: the rectangle of any direction with the same second moments.
 *
 * @param length longer side, cells
 * @param width shorter side, cells
 * @param offAxisDeg angle between the longer side and the nearer axis of the raster, 0 to 45
 *     degrees
 */
public record StripShape(double length, double width, double offAxisDeg) {
  /** The deviation of a uniform distribution is its width over this. */
  private static final double SIDE_OVER_DEVIATION = Math.sqrt(12);

  /**
   * The strip of a component.
   *
   * @param rasterWidth cells in a row of the raster
   */
  public static StripShape of(Components.Labelling parts, Components.Component c, int rasterWidth) {
    double sx = 0;
    double sy = 0;
    double xx = 0;
    double yy = 0;
    double xy = 0;
    PixelRect b = c.bounds();
    for (int y = b.y(); y < b.y() + b.height(); y++) {
      for (int x = b.x(); x < b.x() + b.width(); x++) {
        if (parts.ids()[y * rasterWidth + x] == c.id()) {
          sx += x;
          sy += y;
          xx += (double) x * x;
          yy += (double) y * y;
          xy += (double) x * y;
        }
      }
    }
    return of(c.cells(), sx, sy, xx, yy, xy);
  }

  /**
   * The strip of a set of cells.
   *
   * @param n number of cells, above 0
   * @param sx sum of their columns
   * @param sy sum of their rows
   * @param xx sum of squares of columns
   * @param yy sum of squares of rows
   * @param xy sum of products
   */
  public static StripShape of(double n, double sx, double sy, double xx, double yy, double xy) {
    double vx = xx / n - sx / n * (sx / n) + 1 / 12.0;
    double vy = yy / n - sy / n * (sy / n) + 1 / 12.0;
    double vxy = xy / n - sx / n * (sy / n);
    double root = Math.sqrt((vx - vy) * (vx - vy) / 4 + vxy * vxy);
    double large = Math.sqrt(Math.max(0, (vx + vy) / 2 + root));
    double small = Math.sqrt(Math.max(1e-9, (vx + vy) / 2 - root));
    double angle = Math.toDegrees(0.5 * Math.atan2(2 * vxy, vx - vy));
    double off = Math.abs(angle) % 90;
    return new StripShape(
        SIDE_OVER_DEVIATION * large, SIDE_OVER_DEVIATION * small, Math.min(off, 90 - off));
  }
}
