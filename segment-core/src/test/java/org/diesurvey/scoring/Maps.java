package org.diesurvey.scoring;

import java.util.List;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;

/** Small label maps and outlines for the tests of this package. */
final class Maps {
  private Maps() {}

  /** A map from rows of digits; '?' is 255. */
  static LabelRaster of(String... rows) {
    LabelRaster map = new LabelRaster(rows[0].length(), rows.length);
    for (int y = 0; y < rows.length; y++) {
      for (int x = 0; x < rows[y].length(); x++) {
        char c = rows[y].charAt(x);
        map.set(x, y, c == '?' ? 255 : c - '0');
      }
    }
    return map;
  }

  /** A map of zeros with one filled rectangle. */
  static LabelRaster rectangle(int width, int height, int code, int x, int y, int w, int h) {
    LabelRaster map = new LabelRaster(width, height);
    paint(map, code, x, y, w, h);
    return map;
  }

  static void paint(LabelRaster map, int code, int x, int y, int w, int h) {
    for (int row = y; row < y + h; row++) {
      for (int column = x; column < x + w; column++) {
        map.set(column, row, code);
      }
    }
  }

  static Outline box(double x, double y, double w, double h) {
    return new Outline(ring(x, y, w, h), List.of());
  }

  static List<Point> ring(double x, double y, double w, double h) {
    return List.of(
        new Point(x, y), new Point(x + w, y), new Point(x + w, y + h), new Point(x, y + h));
  }
}
