package org.diesurvey.synthetic;

import java.util.ArrayList;
import java.util.List;

/**
 * Single devices as they look at the diffusion layer; each fills the local rectangle 0, 0, w, h.
 */
final class Devices {
  private Devices() {}

  /** Wide transistor: one diffusion area crossed by gates, or separate fingers. */
  static void fingers(Pen pen, Dice dice, double w, double h, double gate) {
    double pitch = gate * dice.uniform(2.5, 6) + dice.uniform(0.2, 1.2);
    boolean upright = dice.chance(0.5);
    double along = upright ? w : h;
    double other = upright ? h : w;
    int count = Math.max(1, Math.min(400, (int) (along / pitch)));
    boolean separate = dice.chance(0.35);
    double share = separate ? dice.uniform(0.5, 0.85) : 1;
    List<Shape> s = new ArrayList<>();
    double step = along / count;
    double line = separate ? step * share : Math.min(step * 0.6, gate);
    if (upright) {
      s.add(separate ? Shape.diffusion(0, 0, line, other) : Shape.poly(step / 2, 0, line, other));
      pen.lattice(s, Axis.plain(count, step), step, Axis.single(0, other), other);
    } else {
      s.add(separate ? Shape.diffusion(0, 0, other, line) : Shape.poly(0, step / 2, other, line));
      pen.lattice(s, Axis.single(0, other), other, Axis.plain(count, step), step);
    }
    if (!separate) {
      pen.diffusion(0, 0, w, h);
    }
  }

  /** Equal squares or oblongs in rows and columns: capacitors, matched transistors, diodes. */
  static void grid(Pen pen, Dice dice, double w, double h, double pitchX, double pitchY) {
    int columns = Math.max(1, (int) (w / pitchX));
    int rows = Math.max(1, (int) (h / pitchY));
    double sx = w / columns;
    double sy = h / rows;
    double a = sx * dice.uniform(0.45, 0.93);
    double b = sy * dice.uniform(0.45, 0.93);
    List<Shape> s = new ArrayList<>();
    s.add(Shape.diffusion((sx - a) / 2, (sy - b) / 2, a, b));
    if (dice.chance(0.4)) {
      double gate = a * dice.uniform(0.1, 0.5);
      s.add(Shape.poly((sx - gate) / 2, (sy - b) / 2, gate, b));
    }
    if (dice.chance(0.25)) {
      double line = Math.min(sx, sy) * 0.06;
      s.add(Shape.diffusion(0, 0, sx, line));
      s.add(Shape.diffusion(0, line, line, sy - line));
    }
    pen.lattice(s, Axis.plain(columns, sx), sx, Axis.plain(rows, sy), sy);
  }

  /** Parallel resistor strips, joined at the ends in turn or not at all. */
  static void serpentine(Pen pen, Dice dice, double w, double h, double line) {
    double pitch = line * dice.uniform(1.6, 3.2);
    int count = Math.max(1, (int) (w / pitch));
    Layer layer = dice.chance(0.6) ? Layer.DIFFUSION : Layer.POLY;
    boolean joined = dice.chance(0.4);
    for (int i = 0; i < count; i++) {
      pen.rect(layer, i * pitch, 0, line, h, 1);
      if (joined && i + 1 < count) {
        pen.rect(layer, i * pitch + line, (i & 1) == 0 ? 0 : h - line, pitch - line, line, 1);
      }
    }
    if (dice.chance(0.3)) {
      pen.rect(Layer.WELL, -line, -line, w + 2 * line, h + 2 * line, dice.uniform(-1, 1));
    }
  }

  /** Nested squares: emitter, base and collector seen from above. */
  static void bipolar(Pen pen, Dice dice, double w, double h) {
    double side = Math.min(w, h);
    double x = (w - side) / 2;
    double y = (h - side) / 2;
    double line = side * dice.uniform(0.05, 0.1);
    pen.ring(x, y, side, side, line, 1);
    pen.ring(x + side * 0.17, y + side * 0.17, side * 0.66, side * 0.66, line, 1);
    double core = side * dice.uniform(0.15, 0.34);
    pen.diffusion(x + (side - core) / 2, y + (side - core) / 2, core, core);
  }

  /** Even field, perhaps with a well; nothing else. */
  static void bare(Pen pen, Dice dice, double w, double h) {
    if (dice.chance(0.5)) {
      pen.rect(Layer.WELL, 0, 0, w, h, dice.uniform(-1, 1));
    }
  }

  /** Dummy fill of equal tiles, as between blocks of planarised processes. */
  static void fill(Pen pen, Dice dice, double w, double h) {
    double pitch = dice.logUniform(1.5, 14);
    double tile = pitch * dice.uniform(0.3, 0.8);
    int columns = (int) (w / pitch);
    int rows = (int) (h / pitch);
    if (columns < 1 || rows < 1) {
      return;
    }
    List<Shape> s = List.of(Shape.diffusion(pitch * 0.1, pitch * 0.1, tile, tile));
    pen.lattice(s, Axis.plain(columns, pitch), pitch, Axis.plain(rows, pitch), pitch);
  }

  /** Imprint of a solder bump: a disc that fills a square. */
  static void imprint(Pen pen, RectUm bump, double weight) {
    double r = bump.widthUm() / 2;
    int strips = 24;
    for (int i = 0; i < strips; i++) {
      double y = r * (2 * (i + 0.5) / strips - 1);
      double half = Math.sqrt(r * r - y * y);
      pen.rect(
          Layer.WELL,
          bump.xUm() + r - half,
          bump.yUm() + r + y - r / strips,
          2 * half,
          2 * r / strips,
          weight);
    }
  }
}
