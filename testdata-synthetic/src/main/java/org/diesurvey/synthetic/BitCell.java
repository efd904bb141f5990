package org.diesurvey.synthetic;

import java.util.ArrayList;
import java.util.List;

/**
 * One bit cell of the diffusion layer with what separates it from its neighbours.
 *
 * @param shapes within width x height
 * @param strap shapes of a column strap, within strapUm x height
 * @param tap shapes of a tap row, within width x tapUm
 */
record BitCell(
    String kind,
    double width,
    double height,
    List<Shape> shapes,
    double strapUm,
    List<Shape> strap,
    double tapUm,
    List<Shape> tap,
    boolean mirrorX,
    boolean mirrorY) {

  /**
   * Draws a cell.
   *
   * @param even its straps hardly show
   */
  static BitCell draw(Dice dice, Technology tech, boolean even) {
    double area = tech.bitCellUm2() * dice.logUniform(0.8, 1.4);
    double aspect = dice.logUniform(0.5, 3);
    int kind = dice.weighted(2.5, 1.8, 3.2, 1, 3, 2.2);
    if (kind <= 1 && dice.chance(0.6)) {
      aspect = dice.logUniform(1.6, 3);
    }
    double w = Math.sqrt(area * aspect);
    double h = area / w;
    double f = Math.min(tech.diffusionUm(), Math.min(w, h) / 4);
    List<Shape> s = new ArrayList<>();
    String name;
    switch (kind) {
      case 0 -> {
        name = "thin cell";
        thinCell(dice, s, w, h, f);
      }
      case 1 -> {
        name = "continuous strips";
        strips(dice, s, w, h);
      }
      case 2 -> {
        name = "square cell";
        squareCell(dice, s, w, h, f);
      }
      case 3 -> {
        name = "dynamic cell";
        dynamicCell(dice, s, w, h);
      }
      case 4 -> {
        name = "free cell";
        freeCell(dice, s, w, h, f);
      }
      default -> {
        name = "dense cell";
        denseCell(dice, s, w, h, f);
      }
    }
    polyLines(dice, s, w, h, tech.gateUm());
    boolean quiet = even || dice.chance(0.4);
    double strapUm = w * (quiet ? dice.uniform(0.2, even ? 0.5 : 1) : dice.uniform(0.4, 2.2));
    double tapUm = h * (quiet ? dice.uniform(0.25, 1) : dice.uniform(0.4, 2.2));
    double cover = quiet ? coverage(s, w, h) : -1;
    return new BitCell(
        name,
        w,
        h,
        List.copyOf(s),
        strapUm,
        gapShapes(dice.child("strap"), strapUm, h, true, cover),
        tapUm,
        gapShapes(dice.child("tap"), w, tapUm, false, cover),
        dice.chance(0.75),
        dice.chance(0.8));
  }

  /** N, P, P, N strips along the cell; the N strips run on, the P islands stop. */
  private static void thinCell(Dice dice, List<Shape> s, double w, double h, double f) {
    double n = w * dice.uniform(0.1, 0.22);
    double edge = w * dice.uniform(0.03, 0.12);
    double split = dice.uniform(0.35, 0.65);
    double jog = n * dice.uniform(0.55, 1);
    s.add(Shape.diffusion(edge, 0, n, h * split));
    s.add(Shape.diffusion(edge, h * split, jog, h * (1 - split)));
    s.add(Shape.diffusion(w - edge - n, h * (1 - split), n, h * split));
    s.add(Shape.diffusion(w - edge - jog, 0, jog, h * (1 - split)));
    double p = Math.max(f * 0.7, w * dice.uniform(0.06, 0.12));
    double reach = dice.uniform(0.5, 0.9);
    double first = w * dice.uniform(0.34, 0.42);
    s.add(Shape.diffusion(first, 0, p, h * reach));
    s.add(Shape.diffusion(w - first - p, h * (1 - reach), p, h * reach));
    if (dice.chance(0.6)) {
      s.add(Shape.well(w * 0.3, 0, w * 0.4, h, dice.uniform(0.3, 1)));
    }
  }

  /** Hardly anything but lines that run through the whole array. */
  private static void strips(Dice dice, List<Shape> s, double w, double h) {
    int lines = dice.between(1, 5);
    double at = 0;
    double share = dice.uniform(0.25, 0.8);
    for (int i = 0; i < lines; i++) {
      double pitch = w / lines;
      double line = pitch * Math.min(0.9, share * dice.uniform(0.8, 1.25));
      s.add(Shape.diffusion(at + (pitch - line) * dice.uniform(0, 1), 0, line, h));
      at += pitch;
    }
    int bumps = dice.between(0, 2);
    for (int i = 0; i < bumps; i++) {
      double x = w * dice.uniform(0, 0.6);
      double y = h * dice.uniform(0, 0.5);
      double across = w * dice.uniform(0.1, 0.4);
      double tall = h * dice.uniform(0.1, 0.5);
      float weight = (float) dice.logUniform(0.05, 1);
      s.add(new Shape(Layer.DIFFUSION, x, y, x + across, y + tall, weight));
    }
    if (dice.chance(0.5)) {
      s.add(Shape.well(0, 0, w * dice.uniform(0.3, 0.6), h, dice.uniform(0.3, 1)));
    }
  }

  private static void squareCell(Dice dice, List<Shape> s, double w, double h, double f) {
    double bar = Math.max(f, h * dice.uniform(0.12, 0.3));
    double y = h * dice.uniform(0.1, 0.5);
    s.add(Shape.diffusion(w * 0.05, y, w * dice.uniform(0.6, 0.95), bar));
    double leg = Math.max(f, w * dice.uniform(0.12, 0.3));
    s.add(Shape.diffusion(w * dice.uniform(0.05, 0.2), y + bar, leg, (h - y - bar)));
    double x = w * dice.uniform(0.5, 0.75);
    s.add(Shape.diffusion(x, 0, leg, y));
    if (dice.chance(0.6)) {
      s.add(
          Shape.diffusion(
              w * dice.uniform(0.45, 0.6), y + bar * 1.6, w * 0.3, Math.max(f, h * 0.15)));
    }
    if (dice.chance(0.5)) {
      s.add(Shape.well(0, 0, w, h * 0.45, dice.uniform(0.3, 1)));
    }
  }

  private static void dynamicCell(Dice dice, List<Shape> s, double w, double h) {
    double bar = h * dice.uniform(0.3, 0.6);
    double y = (h - bar) * dice.uniform(0.2, 0.8);
    double reach = dice.uniform(0.55, 0.95);
    s.add(Shape.diffusion(0, y, w * reach, bar));
    if (dice.chance(0.6)) {
      s.add(Shape.diffusion(0, y - h * 0.12, w * 0.25, bar + h * 0.24));
    }
  }

  private static void freeCell(Dice dice, List<Shape> s, double w, double h, double f) {
    int count = dice.between(2, 7);
    for (int i = 0; i < count; i++) {
      boolean upright = dice.chance(0.5);
      double a = upright ? w * dice.uniform(0.08, 0.3) : w * dice.uniform(0.25, 0.9);
      double b = upright ? h * dice.uniform(0.25, 0.9) : h * dice.uniform(0.08, 0.3);
      a = Math.min(w, Math.max(a, f));
      b = Math.min(h, Math.max(b, f));
      s.add(Shape.diffusion((w - a) * dice.uniform(0, 1), (h - b) * dice.uniform(0, 1), a, b));
    }
  }

  /** Nearly all diffusion; what shows are the gaps. */
  private static void denseCell(Dice dice, List<Shape> s, double w, double h, double f) {
    double gap = Math.max(f * 0.6, Math.min(w, h) * dice.uniform(0.06, 0.2));
    double split = dice.uniform(0.3, 0.7);
    s.add(Shape.diffusion(gap / 2, gap / 2, w * split - gap, h - gap));
    if (dice.chance(0.5)) {
      s.add(Shape.diffusion(w * split + gap / 2, 0, w * (1 - split) - gap, h));
    } else {
      double half = h * dice.uniform(0.35, 0.65);
      s.add(Shape.diffusion(w * split + gap / 2, gap / 2, w * (1 - split) - gap, half - gap));
      s.add(
          Shape.diffusion(
              w * split + gap / 2, half + gap / 2, w * (1 - split) - gap, h - half - gap));
    }
  }

  private static void polyLines(Dice dice, List<Shape> s, double w, double h, double gate) {
    int lines = dice.between(0, 2);
    for (int i = 0; i < lines; i++) {
      double line = Math.min(gate * dice.uniform(1, 1.6), h / 3);
      double y = h * (i + dice.uniform(0.2, 0.8)) / lines - line / 2;
      double x = dice.chance(0.4) ? 0 : w * dice.uniform(0, 0.5);
      double reach = x == 0 ? w : w * dice.uniform(0.4, 1) - x;
      if (reach > 0) {
        s.add(Shape.poly(x, y, reach, line));
      }
    }
    int contacts = dice.between(0, 4);
    for (int i = 0; i < contacts; i++) {
      double size = gate * dice.uniform(1, 1.4);
      s.add(
          Shape.contact(
              w * dice.uniform(0, 1) - size / 2, h * dice.uniform(0, 1) - size / 2, size));
    }
  }

  private static double coverage(List<Shape> shapes, double w, double h) {
    double sum = 0;
    for (Shape s : shapes) {
      if (s.layer() == Layer.DIFFUSION) {
        sum += (s.x1() - s.x0()) * (s.y1() - s.y0()) * s.weight();
      }
    }
    return Math.min(1, sum / (w * h));
  }

  /**
   * What fills a strap or tap: nothing, a line along it, islands, or both.
   *
   * @param cover mean coverage that a quiet gap keeps, so that it hardly shows; below 0 for any
   */
  private static List<Shape> gapShapes(
      Dice dice, double w, double h, boolean upright, double cover) {
    List<Shape> s = new ArrayList<>();
    if (cover >= 0) {
      float weight = (float) Math.min(1, cover * dice.uniform(0.7, 1.3));
      s.add(new Shape(Layer.DIFFUSION, 0, 0, w, h, weight));
      return List.copyOf(s);
    }
    int kind = dice.weighted(1.2, 2, 2, 1);
    double line = dice.uniform(0.25, 0.8);
    double off = (1 - line) * dice.uniform(0, 1);
    if (kind == 1 || kind == 3) {
      if (upright) {
        s.add(Shape.diffusion(w * off, 0, w * line, h));
      } else {
        s.add(Shape.diffusion(0, h * off, w, h * line));
      }
    }
    if (kind >= 2) {
      double a = w * dice.uniform(0.25, 0.7);
      double b = h * dice.uniform(0.25, 0.7);
      s.add(Shape.diffusion((w - a) / 2, (h - b) / 2, a, b));
    }
    if (dice.chance(0.3)) {
      s.add(Shape.well(0, 0, w, h, dice.uniform(-1, 1)));
    }
    return List.copyOf(s);
  }
}
