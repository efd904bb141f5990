package org.diesurvey.vision;

import org.diesurvey.raster.PixelRect;

/**
 * A set of cells as a strip: the rectangle of any direction with the same second moments.
 *
 * @param cells how many there are
 * @param length longer side, cells
 * @param width shorter side, cells
 * @param offAxisDeg angle between the longer side and the nearer axis of the raster, 0 to 45
 *     degrees
 */
public record StripShape(int cells, double length, double width, double offAxisDeg) {
  /** The deviation of a uniform distribution is its width over this. */
  private static final double SIDE_OVER_DEVIATION = Math.sqrt(12);

  /** Which cells of a raster belong to the set. */
  public interface Cells {
    /** Whether the cell of a row and a column does. */
    boolean has(int row, int column);
  }

  /**
   * The strip of a component.
   *
   * @param rasterWidth cells in a row of the raster
   */
  public static StripShape of(Components.Labelling parts, Components.Component c, int rasterWidth) {
    return of(c.bounds(), (row, column) -> parts.ids()[row * rasterWidth + column] == c.id());
  }

  /**
   * The strip of a set of cells.
   *
   * @param within where they are looked for; at least one lies there
   */
  public static StripShape of(PixelRect within, Cells cells) {
    int n = 0;
    double sx = 0;
    double sy = 0;
    double xx = 0;
    double yy = 0;
    double xy = 0;
    for (int y = within.y(); y < within.y() + within.height(); y++) {
      for (int x = within.x(); x < within.x() + within.width(); x++) {
        if (cells.has(y, x)) {
          n++;
          sx += x;
          sy += y;
          xx += (double) x * x;
          yy += (double) y * y;
          xy += (double) x * y;
        }
      }
    }
    double vx = xx / n - sx / n * (sx / n) + 1 / 12.0;
    double vy = yy / n - sy / n * (sy / n) + 1 / 12.0;
    double vxy = xy / n - sx / n * (sy / n);
    double root = Math.sqrt((vx - vy) * (vx - vy) / 4 + vxy * vxy);
    double large = Math.sqrt(Math.max(0, (vx + vy) / 2 + root));
    double small = Math.sqrt(Math.max(1e-9, (vx + vy) / 2 - root));
    double angle = Math.toDegrees(0.5 * Math.atan2(2 * vxy, vx - vy));
    double off = Math.abs(angle) % 90;
    return new StripShape(
        n, SIDE_OVER_DEVIATION * large, SIDE_OVER_DEVIATION * small, Math.min(off, 90 - off));
  }
}
