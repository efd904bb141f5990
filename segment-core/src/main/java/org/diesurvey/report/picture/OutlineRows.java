package org.diesurvey.report.picture;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;

/**
 * An outline cut into rows of pixels. A pixel belongs to the outline if its centre does (even-odd
 * rule over shell and holes; a centre exactly on an edge belongs to the area right of or below it),
 * so areas that share an edge never share a pixel. Rows are asked for from top to bottom.
 */
final class OutlineRows {
  private final Edge[] edges;
  private final List<Edge> active = new ArrayList<>();
  private final int firstRow;
  private final int lastRow;
  private double[] crossings = new double[16];
  private int next;

  /**
   * @param topRow first row whose centre the edge covers
   * @param endRow row after the last one
   * @param x at the centre of the top row
   * @param slope x per row
   */
  private record Edge(int topRow, int endRow, double x, double slope) {}

  OutlineRows(Outline outline) {
    this(rings(outline));
  }

  /** Rings of corners in px. */
  OutlineRows(List<List<Point>> rings) {
    List<Edge> all = new ArrayList<>();
    for (List<Point> ring : rings) {
      for (int i = 0; i < ring.size(); i++) {
        addEdge(all, ring.get(i), ring.get((i + 1) % ring.size()));
      }
    }
    all.sort(Comparator.comparingInt(Edge::topRow));
    edges = all.toArray(new Edge[0]);
    firstRow = edges.length == 0 ? 0 : edges[0].topRow;
    lastRow = all.stream().mapToInt(Edge::endRow).max().orElse(0) - 1;
  }

  private static List<List<Point>> rings(Outline outline) {
    List<List<Point>> rings = new ArrayList<>(outline.holes());
    rings.add(outline.shell());
    return rings;
  }

  private static void addEdge(List<Edge> all, Point from, Point to) {
    Point upper = from.y() <= to.y() ? from : to;
    Point lower = from.y() <= to.y() ? to : from;
    int top = (int) Math.ceil(upper.y() - 0.5);
    int end = (int) Math.ceil(lower.y() - 0.5);
    if (end > top) {
      double slope = (lower.x() - upper.x()) / (lower.y() - upper.y());
      all.add(new Edge(top, end, upper.x() + (top + 0.5 - upper.y()) * slope, slope));
    }
  }

  int firstRow() {
    return firstRow;
  }

  int lastRow() {
    return lastRow;
  }

  /** Receives the columns of one run of pixels, half open. */
  interface Run {
    void fill(int from, int to);
  }

  /** The runs of a row; rows must not go back. */
  void row(int y, int width, Run run) {
    while (next < edges.length && edges[next].topRow <= y) {
      active.add(edges[next++]);
    }
    active.removeIf(e -> e.endRow <= y);
    int n = active.size();
    if (crossings.length < n) {
      crossings = new double[2 * n];
    }
    for (int i = 0; i < n; i++) {
      Edge e = active.get(i);
      crossings[i] = e.x + (y - e.topRow) * e.slope;
    }
    Arrays.sort(crossings, 0, n);
    for (int i = 0; i + 1 < n; i += 2) {
      int from = (int) Math.max(0, Math.ceil(crossings[i] - 0.5));
      int to = (int) Math.min(width, Math.ceil(crossings[i + 1] - 0.5));
      if (to > from) {
        run.fill(from, to);
      }
    }
  }
}
