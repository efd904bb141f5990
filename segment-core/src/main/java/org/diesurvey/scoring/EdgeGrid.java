package org.diesurvey.scoring;

import java.util.ArrayList;
import java.util.List;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.survey.Point;

/**
 * The edges of one class in a label map, on the grid of pixel corners, and the distance to them.
 *
 * <p>A corner lies on an edge if of the four pixels around it some have the class and some do not.
 * The frame of the photograph is no edge: where a region is cut by it, nobody knows the edge.
 */
final class EdgeGrid {
  /** Far beyond any photograph, and its square still fits a double exactly. */
  private static final int NONE = 1 << 24;

  private final int width;
  private final int height;

  /** Distance along the column to the nearest edge corner, px; NONE where the column has none. */
  private final int[] vertical;

  private boolean empty = true;

  /**
   * @param labels a label map
   * @param code the class whose edges are meant
   */
  EdgeGrid(LabelRaster labels, int code) {
    width = labels.width() + 1;
    height = labels.height() + 1;
    vertical = new int[Math.multiplyExact(width, height)];
    for (int x = 0; x < width; x++) {
      int distance = NONE;
      for (int y = 0; y < height; y++) {
        boolean edge = isEdge(labels, code, x, y);
        empty &= !edge;
        distance = edge ? 0 : Math.min(NONE, distance + 1);
        vertical[y * width + x] = distance;
      }
      for (int y = height - 2; y >= 0; y--) {
        int i = y * width + x;
        vertical[i] = Math.min(vertical[i], vertical[i + width] + 1);
      }
    }
  }

  /** All corners on an edge of the class. */
  static List<Point> points(LabelRaster labels, int code) {
    List<Point> points = new ArrayList<>();
    for (int y = 1; y < labels.height(); y++) {
      for (int x = 1; x < labels.width(); x++) {
        if (isEdge(labels, code, x, y)) {
          points.add(new Point(x, y));
        }
      }
    }
    return points;
  }

  /**
   * Euclidean distance from the corner next to a point to the nearest edge corner, px; infinite if
   * the map has no edge of the class. Exact between corners; a point between corners is moved by at
   * most 0.71 px.
   *
   * @param point inside the photograph, pixel frame
   */
  double distance(Point point) {
    if (empty) {
      return Double.POSITIVE_INFINITY;
    }
    int px = clamp(point.x(), width);
    int py = clamp(point.y(), height);
    int row = py * width;
    double best = square(vertical[row + px]);
    // Columns further off than the best distance so far cannot hold a nearer edge.
    for (int d = 1; d < width && square(d) < best; d++) {
      if (px - d >= 0) {
        best = Math.min(best, square(d) + square(vertical[row + px - d]));
      }
      if (px + d < width) {
        best = Math.min(best, square(d) + square(vertical[row + px + d]));
      }
    }
    return Math.sqrt(best);
  }

  private static boolean isEdge(LabelRaster labels, int code, int x, int y) {
    if (x == 0 || y == 0 || x == labels.width() || y == labels.height()) {
      return false;
    }
    boolean here = labels.get(x, y) == code;
    return here != (labels.get(x - 1, y) == code)
        || here != (labels.get(x, y - 1) == code)
        || here != (labels.get(x - 1, y - 1) == code);
  }

  private static int clamp(double v, int size) {
    return (int) Math.max(0, Math.min(size - 1, Math.rint(v)));
  }

  private static double square(double v) {
    return v * v;
  }
}
