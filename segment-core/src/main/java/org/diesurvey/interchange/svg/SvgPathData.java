package org.diesurvey.interchange.svg;

import java.util.ArrayList;
import java.util.List;
import org.diesurvey.interchange.OutlineChecks;
import org.diesurvey.interchange.OutlineShapes;
import org.diesurvey.survey.Point;

/**
 * The rings of SVG path data (SVG 1.1 Second Edition, 8.3): all commands, absolute and relative.
 * Curves become chords, fine enough that the area of a circle is off by 0.04 %. Every subpath is
 * taken as closed, as filling does.
 */
final class SvgPathData {
  private static final int CURVE_STEPS = 32;
  private static final int CIRCLE_STEPS = 128;

  private final SvgNumbers in;
  private final List<List<Point>> rings = new ArrayList<>();
  private List<Point> ring = new ArrayList<>();
  private double x;
  private double y;
  private double startX;
  private double startY;

  /** Last control point, for the smooth commands; that of a curve of the kind named. */
  private double controlX;

  private double controlY;
  private char controlOf = ' ';

  private SvgPathData(String data) {
    in = new SvgNumbers(data);
  }

  /**
   * The rings, at least 3 corners each.
   *
   * @throws IllegalArgumentException where the data breaks the grammar
   */
  static List<List<Point>> rings(String data) {
    SvgPathData path = new SvgPathData(data);
    path.read();
    return path.rings;
  }

  private void read() {
    char command = ' ';
    while (!in.atEnd()) {
      char letter = in.letter();
      if (letter != 0) {
        command = letter;
      } else if (command == 'M') {
        command = 'L';
      } else if (command == 'm') {
        command = 'l';
      } else if (command == 'Z' || command == 'z') {
        throw new IllegalArgumentException("numbers after Z");
      }
      if (rings.isEmpty() && ring.isEmpty() && command != 'M' && command != 'm') {
        throw new IllegalArgumentException("the path does not begin with M");
      }
      step(command);
    }
    end();
  }

  private void step(char command) {
    boolean relative = Character.isLowerCase(command);
    double dx = relative ? x : 0;
    double dy = relative ? y : 0;
    switch (Character.toUpperCase(command)) {
      case 'M' -> {
        end();
        startX = dx + in.number();
        startY = dy + in.number();
        to(startX, startY);
      }
      case 'L' -> to(dx + in.number(), dy + in.number());
      case 'H' -> to(dx + in.number(), y);
      case 'V' -> to(x, dy + in.number());
      case 'Z' -> {
        end();
        x = startX;
        y = startY;
        controlOf = ' ';
        return;
      }
      case 'C' ->
          cubic(
              dx + in.number(),
              dy + in.number(),
              dx + in.number(),
              dy + in.number(),
              dx + in.number(),
              dy + in.number());
      case 'S' -> {
        double cx = controlOf == 'C' ? 2 * x - controlX : x;
        double cy = controlOf == 'C' ? 2 * y - controlY : y;
        cubic(cx, cy, dx + in.number(), dy + in.number(), dx + in.number(), dy + in.number());
      }
      case 'Q' -> quadratic(dx + in.number(), dy + in.number(), dx + in.number(), dy + in.number());
      case 'T' -> {
        double cx = controlOf == 'Q' ? 2 * x - controlX : x;
        double cy = controlOf == 'Q' ? 2 * y - controlY : y;
        quadratic(cx, cy, dx + in.number(), dy + in.number());
      }
      case 'A' ->
          arc(
              Math.abs(in.number()),
              Math.abs(in.number()),
              Math.toRadians(in.number()),
              in.flag(),
              in.flag(),
              dx + in.number(),
              dy + in.number());
      default -> throw new IllegalArgumentException("unknown command '" + command + "'");
    }
    char upper = Character.toUpperCase(command);
    controlOf = upper == 'S' ? 'C' : upper == 'T' ? 'Q' : upper;
  }

  private void to(double px, double py) {
    if (ring.isEmpty() && (px != startX || py != startY)) {
      ring.add(new Point(startX, startY));
    }
    ring.add(new Point(px, py));
    x = px;
    y = py;
    if (ring.size() > OutlineChecks.MOST_CORNERS) {
      throw new IllegalArgumentException("too many corners");
    }
  }

  private void cubic(double x1, double y1, double x2, double y2, double x3, double y3) {
    double x0 = x;
    double y0 = y;
    for (int i = 1; i <= CURVE_STEPS; i++) {
      double t = (double) i / CURVE_STEPS;
      double s = 1 - t;
      to(
          s * s * s * x0 + 3 * s * s * t * x1 + 3 * s * t * t * x2 + t * t * t * x3,
          s * s * s * y0 + 3 * s * s * t * y1 + 3 * s * t * t * y2 + t * t * t * y3);
    }
    controlX = x2;
    controlY = y2;
  }

  private void quadratic(double x1, double y1, double x2, double y2) {
    // A quadratic curve as a cubic one: control points two thirds of the way to its own.
    double x0 = x;
    double y0 = y;
    cubic(
        x0 + 2 * (x1 - x0) / 3,
        y0 + 2 * (y1 - y0) / 3,
        x2 + 2 * (x1 - x2) / 3,
        y2 + 2 * (y1 - y2) / 3,
        x2,
        y2);
    controlX = x1;
    controlY = y1;
  }

  /** SVG 1.1, appendix F.6.5 and F.6.6: from end points to the centre (from memory). */
  private void arc(
      double rx, double ry, double turn, boolean large, boolean sweep, double ex, double ey) {
    if (rx == 0 || ry == 0 || x == ex && y == ey) {
      to(ex, ey);
      return;
    }
    double cos = Math.cos(turn);
    double sin = Math.sin(turn);
    double hx = (x - ex) / 2;
    double hy = (y - ey) / 2;
    double px = cos * hx + sin * hy;
    double py = -sin * hx + cos * hy;
    double grow = px * px / (rx * rx) + py * py / (ry * ry);
    if (grow > 1) {
      rx *= Math.sqrt(grow);
      ry *= Math.sqrt(grow);
    }
    double denominator = rx * rx * py * py + ry * ry * px * px;
    double root = Math.sqrt(Math.max(0, rx * rx * ry * ry / denominator - 1));
    double sign = large == sweep ? -root : root;
    double qx = sign * rx * py / ry;
    double qy = -sign * ry * px / rx;
    double cx = cos * qx - sin * qy + (x + ex) / 2;
    double cy = sin * qx + cos * qy + (y + ey) / 2;
    double from = Math.atan2((py - qy) / ry, (px - qx) / rx);
    double sweepBy = Math.atan2((-py - qy) / ry, (-px - qx) / rx) - from;
    if (sweep && sweepBy < 0) {
      sweepBy += 2 * Math.PI;
    } else if (!sweep && sweepBy > 0) {
      sweepBy -= 2 * Math.PI;
    }
    int n = Math.max(1, (int) Math.ceil(Math.abs(sweepBy) / (2 * Math.PI) * CIRCLE_STEPS));
    for (int i = 1; i < n; i++) {
      double angle = from + sweepBy * i / n;
      double ax = rx * Math.cos(angle);
      double ay = ry * Math.sin(angle);
      to(cos * ax - sin * ay + cx, sin * ax + cos * ay + cy);
    }
    to(ex, ey);
  }

  private void end() {
    List<Point> distinct = OutlineShapes.distinct(ring);
    if (distinct.size() >= 3) {
      rings.add(distinct);
    }
    ring = new ArrayList<>();
  }
}
