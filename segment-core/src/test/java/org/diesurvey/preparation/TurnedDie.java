package org.diesurvey.preparation;

import java.util.ArrayList;
import java.util.List;
import org.diesurvey.raster.PixelPoint;

/** A rectangle at a known place and angle: the truth for drawn dies. */
public record TurnedDie(double cx, double cy, double w, double h, double deg) {
  /** Place along the upper edge from the upper left corner, px. */
  public double u(double x, double y) {
    double a = Math.toRadians(deg);
    return (x - cx) * Math.cos(a) + (y - cy) * Math.sin(a) + w / 2;
  }

  /** Place down the left edge from the upper left corner, px. */
  public double v(double x, double y) {
    double a = Math.toRadians(deg);
    return -(x - cx) * Math.sin(a) + (y - cy) * Math.cos(a) + h / 2;
  }

  public boolean contains(double u, double v) {
    return u >= 0 && v >= 0 && u <= w && v <= h;
  }

  /** Upper left, upper right, lower right, lower left. */
  public List<PixelPoint> corners() {
    double a = Math.toRadians(deg);
    List<PixelPoint> out = new ArrayList<>();
    for (double[] s : new double[][] {{-1, -1}, {1, -1}, {1, 1}, {-1, 1}}) {
      double p = s[0] * w / 2;
      double q = s[1] * h / 2;
      out.add(
          new PixelPoint(
              cx + Math.cos(a) * p - Math.sin(a) * q, cy + Math.sin(a) * p + Math.cos(a) * q));
    }
    return out;
  }
}
