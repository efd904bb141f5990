package org.diesurvey.scoring;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;

/** Pixels inside an outline: their centre lies in it and outside its holes (even-odd rule). */
final class OutlineFill {
  private OutlineFill() {}

  /** Pixels of one row that lie inside, from the first to before the last. */
  interface Run {
    void take(int y, int from, int to);
  }

  /**
   * Pixels of each code inside the outline.
   *
   * @return 256 counts, by code
   */
  static long[] histogram(LabelRaster labels, Outline outline) {
    long[] counts = new long[256];
    runs(
        outline,
        labels.width(),
        labels.height(),
        (y, from, to) -> {
          for (int x = from; x < to; x++) {
            counts[labels.get(x, y)]++;
          }
        });
    return counts;
  }

  /** Hands over every run of pixels inside the outline, in a frame of a width and a height. */
  static void runs(Outline outline, int width, int height, Run run) {
    List<List<Point>> rings = new ArrayList<>(outline.holes());
    rings.add(outline.shell());
    double top = outline.shell().stream().mapToDouble(Point::y).min().orElseThrow();
    double bottom = outline.shell().stream().mapToDouble(Point::y).max().orElseThrow();
    int first = (int) Math.max(0, Math.floor(top));
    int last = (int) Math.min(height - 1, Math.ceil(bottom));
    for (int y = first; y <= last; y++) {
      double[] crossings = crossings(rings, y + 0.5);
      for (int i = 0; i + 1 < crossings.length; i += 2) {
        int from = (int) Math.max(0, Math.ceil(crossings[i] - 0.5));
        int to = (int) Math.min(width, Math.ceil(crossings[i + 1] - 0.5));
        if (from < to) {
          run.take(y, from, to);
        }
      }
    }
  }

  private static double[] crossings(List<List<Point>> rings, double y) {
    List<Double> xs = new ArrayList<>();
    for (List<Point> ring : rings) {
      Point a = ring.get(ring.size() - 1);
      for (Point b : ring) {
        // Half open in y, so that a corner on the line is met once.
        if ((a.y() <= y) != (b.y() <= y)) {
          xs.add(a.x() + (y - a.y()) / (b.y() - a.y()) * (b.x() - a.x()));
        }
        a = b;
      }
    }
    double[] sorted = xs.stream().mapToDouble(Double::doubleValue).toArray();
    Arrays.sort(sorted);
    return sorted;
  }
}
