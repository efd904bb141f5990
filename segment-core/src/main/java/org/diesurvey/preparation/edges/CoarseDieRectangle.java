package org.diesurvey.preparation.edges;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.diesurvey.raster.Axis;
import org.diesurvey.raster.PixelPoint;
import org.diesurvey.raster.PixelRect;
import org.diesurvey.vision.Components;

/**
 * A rectangle known to within {@code slackPx}.
 *
 * @param cx middle, photo px
 * @param cy middle, photo px
 * @param w length of the upper and lower sides, photo px
 * @param h length of the left and right sides, photo px
 * @param angle turn, radians, positive clockwise as seen
 * @param slackPx how far a side may be off, photo px
 * @param seen least share of the places of a real side that agree
 * @param skews turn of each side against the rectangle's, radians, positive clockwise as seen: a
 *     tilted die has none parallel
 * @param real sides where the die ends; the others lie at or beyond the photograph's frame
 */
record CoarseDieRectangle(
    double cx,
    double cy,
    double w,
    double h,
    double angle,
    double slackPx,
    double seen,
    Map<DieSide, Double> skews,
    List<DieSide> real) {
  /** Places along a side that are looked at. */
  private static final int PLACES = 200;

  /** Tolerance of a straight side, cells. */
  private static final double TOLERANCE_CELLS = 2.5;

  /** Share of the places along a side that must agree. */
  private static final double LEAST_SEEN = 0.3;

  /** Share of the places along a side that touch the photograph's frame if the die is cut there. */
  private static final double CUT_SHARE = 0.5;

  static CoarseDieRectangle of(DieEdge e, double slackPx) {
    double cx = 0;
    double cy = 0;
    for (PixelPoint p : e.corners()) {
      cx += p.x() / 4;
      cy += p.y() / 4;
    }
    return new CoarseDieRectangle(
        cx,
        cy,
        e.widthPx(),
        e.heightPx(),
        Math.toRadians(e.rotationDeg()),
        Math.max(12, slackPx),
        1,
        e.skews(),
        e.realEdges());
  }

  double area() {
    return w * h;
  }

  /** Whether two rectangles overlap by more than their slack, judged by their middles and sides. */
  boolean overlaps(CoarseDieRectangle o) {
    double reachX = (w + o.w) / 2 - Math.max(slackPx, o.slackPx);
    double reachY = (h + o.h) / 2 - Math.max(slackPx, o.slackPx);
    double cos = Math.cos(angle);
    double sin = Math.sin(angle);
    double u = Math.abs((o.cx - cx) * cos + (o.cy - cy) * sin);
    double v = Math.abs((o.cy - cy) * cos - (o.cx - cx) * sin);
    return u < reachX && v < reachY;
  }

  /** How far a place of the photograph lies outside, px; negative inside. */
  double beyond(double x, double y) {
    double cos = Math.cos(angle);
    double sin = Math.sin(angle);
    double u = (x - cx) * cos + (y - cy) * sin;
    double v = (y - cy) * cos - (x - cx) * sin;
    return Math.max(Math.abs(u) - w / 2, Math.abs(v) - h / 2);
  }

  /**
   * Fits a rectangle to the outermost cells of a component, row by row and column by column.
   *
   * @param width cells of the overview across
   * @param height cells of the overview down
   * @param factor photo px per cell
   * @return empty if a side is neither straight nor cut by the frame, or no side is straight
   */
  static Optional<CoarseDieRectangle> fit(
      int[] ids, Components.Component c, int width, int height, int factor) {
    Map<DieSide, EdgeLine> lines = new EnumMap<>(DieSide.class);
    double seen = 1;
    for (DieSide side : DieSide.values()) {
      List<double[]> points = outermost(ids, c, width, side);
      double frame = side.far() ? (side.along() == Axis.X ? height : width) : 0;
      long cut = points.stream().filter(p -> Math.abs(p[1] - frame) <= 1.5).count();
      if (cut > CUT_SHARE * points.size()) {
        continue;
      }
      EdgeLine line = EdgeLine.fit(points, points.size(), TOLERANCE_CELLS);
      if (line.inlierShare() < LEAST_SEEN) {
        return Optional.empty();
      }
      seen = Math.min(seen, line.inlierShare());
      lines.put(side, line);
    }
    return lines.isEmpty()
        ? Optional.empty()
        : Optional.of(rectangle(lines, c.bounds(), width, height, factor, seen));
  }

  private static CoarseDieRectangle rectangle(
      Map<DieSide, EdgeLine> lines, PixelRect b, int width, int height, int factor, double seen) {
    double angle = 0;
    for (Map.Entry<DieSide, EdgeLine> e : lines.entrySet()) {
      double slope = Math.atan(e.getValue().slope());
      angle += (e.getKey().along() == Axis.X ? slope : -slope) / lines.size();
    }
    Map<DieSide, Double> skews = new EnumMap<>(DieSide.class);
    for (DieSide side : DieSide.values()) {
      EdgeLine l = lines.get(side);
      double own = l == null ? angle : Math.atan(side.along() == Axis.X ? l.slope() : -l.slope());
      skews.put(side, own - angle);
    }
    double cos = Math.cos(angle);
    double sin = Math.sin(angle);
    double midX = b.x() + b.width() / 2.0;
    double midY = b.y() + b.height() / 2.0;
    // Along the die's own axes; a side that is cut lies where the photograph ends.
    double[] u = {Double.MAX_VALUE, -Double.MAX_VALUE};
    double[] v = {Double.MAX_VALUE, -Double.MAX_VALUE};
    for (int i = 0; i < 4; i++) {
      // The overview leaves out what does not fill a cell: one more reaches the frame.
      double x = (i & 1) * (width + 1.0);
      double y = (i >> 1) * (height + 1.0);
      u[0] = Math.min(u[0], x * cos + y * sin);
      u[1] = Math.max(u[1], x * cos + y * sin);
      v[0] = Math.min(v[0], -x * sin + y * cos);
      v[1] = Math.max(v[1], -x * sin + y * cos);
    }
    for (Map.Entry<DieSide, EdgeLine> e : lines.entrySet()) {
      EdgeLine l = e.getValue();
      boolean flat = e.getKey().along() == Axis.X;
      double x = flat ? midX : l.offset() + l.slope() * midY;
      double y = flat ? l.offset() + l.slope() * midX : midY;
      switch (e.getKey()) {
        case UPPER -> v[0] = -x * sin + y * cos;
        case LOWER -> v[1] = -x * sin + y * cos;
        case LEFT -> u[0] = x * cos + y * sin;
        case RIGHT -> u[1] = x * cos + y * sin;
      }
    }
    double mu = (u[0] + u[1]) / 2;
    double mv = (v[0] + v[1]) / 2;
    return new CoarseDieRectangle(
        (mu * cos - mv * sin) * factor,
        (mu * sin + mv * cos) * factor,
        (u[1] - u[0]) * factor,
        (v[1] - v[0]) * factor,
        angle,
        4.0 * factor,
        seen,
        skews,
        List.copyOf(lines.keySet()));
  }

  /** Pairs of (place along, outermost border of the component), cells. */
  private static List<double[]> outermost(
      int[] ids, Components.Component c, int width, DieSide side) {
    PixelRect b = c.bounds();
    boolean flat = side.along() == Axis.X;
    int from = flat ? b.x() : b.y();
    int length = flat ? b.width() : b.height();
    int depth = flat ? b.height() : b.width();
    int near = flat ? b.y() : b.x();
    boolean far = side.far();
    int step = Math.max(1, length / PLACES);
    List<double[]> points = new ArrayList<>();
    for (int p = from + length / 8; p < from + length * 7 / 8; p += step) {
      for (int d = 0; d < depth; d++) {
        int q = far ? near + depth - 1 - d : near + d;
        if (ids[flat ? q * width + p : p * width + q] == c.id()) {
          points.add(new double[] {p + 0.5, far ? q + 1 : q});
          break;
        }
      }
    }
    return points;
  }
}
