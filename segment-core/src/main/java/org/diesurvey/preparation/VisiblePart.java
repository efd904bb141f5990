package org.diesurvey.preparation;

import java.util.ArrayList;
import java.util.List;
import org.diesurvey.raster.PixelPoint;

/**
 * What of a quadrangle lies in a photograph: clipping against one side after the other (Sutherland
 * and Hodgman 1974, from memory).
 */
public final class VisiblePart {
  private VisiblePart() {}

  /**
   * The visible part.
   *
   * @param corners of a convex polygon, pixel frame
   * @return corners in order, empty if nothing is visible
   */
  public static List<PixelPoint> polygon(List<PixelPoint> corners, int width, int height) {
    List<PixelPoint> p = corners;
    p = clip(p, 1, 0, 0);
    p = clip(p, -1, 0, width);
    p = clip(p, 0, 1, 0);
    return clip(p, 0, -1, height);
  }

  static double areaPx(List<PixelPoint> corners, int width, int height) {
    List<PixelPoint> p = polygon(corners, width, height);
    double twice = 0;
    for (int i = 0; i < p.size(); i++) {
      PixelPoint a = p.get(i);
      PixelPoint b = p.get((i + 1) % p.size());
      twice += a.x() * b.y() - b.x() * a.y();
    }
    return Math.abs(twice) / 2;
  }

  /** Keeps where a x + b y + c is at least 0. */
  private static List<PixelPoint> clip(List<PixelPoint> p, double a, double b, double c) {
    List<PixelPoint> out = new ArrayList<>();
    for (int i = 0; i < p.size(); i++) {
      PixelPoint s = p.get(i);
      PixelPoint e = p.get((i + 1) % p.size());
      double ds = a * s.x() + b * s.y() + c;
      double de = a * e.x() + b * e.y() + c;
      if (ds >= 0) {
        out.add(s);
      }
      if (ds >= 0 != de >= 0) {
        double t = ds / (ds - de);
        out.add(new PixelPoint(s.x() + t * (e.x() - s.x()), s.y() + t * (e.y() - s.y())));
      }
    }
    return out;
  }
}
