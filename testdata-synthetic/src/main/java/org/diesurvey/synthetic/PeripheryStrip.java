package org.diesurvey.synthetic;

import java.util.ArrayList;
import java.util.List;

/**
 * Decoder or column circuit: bands along the strip, each repeating with one, two, four or eight bit
 * cells, irregular across.
 */
final class PeripheryStrip {
  private record Band(double y, double height, int cells, List<Shape> shapes) {}

  private final List<Band> bands;

  private PeripheryStrip(List<Band> bands) {
    this.bands = List.copyOf(bands);
  }

  /**
   * A strip of the given depth.
   *
   * @param pitch bit-cell pitch along the strip
   */
  static PeripheryStrip draw(Dice dice, Technology tech, double depth, double pitch) {
    List<Band> bands = new ArrayList<>();
    double typical = Math.max(tech.gateUm() * 4, depth / dice.between(3, 12));
    int coarse = dice.pickInt(1, 2, 2, 4, 4, 8);
    while (coarse * pitch < tech.gateUm() * 8) {
      coarse *= 2;
    }
    double y = 0;
    while (y < depth - typical * 0.3) {
      double h = Math.min(depth - y, typical * dice.logUniform(0.35, 2.2));
      int cells =
          dice.chance(0.6)
              ? coarse
              : Math.max(1, coarse / dice.pickInt(1, 2, 4) * dice.pickInt(1, 1, 2));
      bands.add(new Band(y, h, cells, band(dice, tech, cells * pitch, h)));
      y += h;
    }
    return new PeripheryStrip(bands);
  }

  private static List<Shape> band(Dice dice, Technology tech, double w, double h) {
    List<Shape> s = new ArrayList<>();
    double f = tech.diffusionUm();
    switch (dice.weighted(1.2, 3, 1.2, 2.5, 1.5)) {
      case 0 -> {
        if (dice.chance(0.3)) {
          s.add(Shape.well(0, 0, w, h, dice.uniform(-1, 1)));
        }
      }
      case 1 -> {
        double a = w * dice.uniform(0.45, 0.92);
        double b = h * dice.uniform(0.5, 0.95);
        s.add(Shape.diffusion((w - a) * dice.uniform(0, 1), (h - b) / 2, a, b));
        gates(dice, s, tech, w, h);
      }
      case 2 -> {
        double line = Math.max(Math.min(h, f), h * dice.uniform(0.3, 0.8));
        s.add(Shape.diffusion(0, (h - line) / 2, w, line));
      }
      case 3 -> {
        int count = dice.between(2, 6);
        for (int i = 0; i < count; i++) {
          double a = Math.min(w, Math.max(f, w * dice.uniform(0.1, 0.5)));
          double b = Math.min(h, Math.max(f, h * dice.uniform(0.2, 0.8)));
          s.add(Shape.diffusion((w - a) * dice.uniform(0, 1), (h - b) * dice.uniform(0, 1), a, b));
        }
        gates(dice, s, tech, w, h);
      }
      default -> {
        int count = Math.max(1, Math.min(6, (int) (w / (2.2 * f))));
        double step = w / count;
        for (int i = 0; i < count; i++) {
          s.add(
              Shape.diffusion(
                  i * step + step * 0.2, h * 0.1, step * 0.6, h * dice.uniform(0.4, 0.8)));
        }
      }
    }
    return List.copyOf(s);
  }

  private static void gates(Dice dice, List<Shape> s, Technology tech, double w, double h) {
    if (!dice.chance(0.6)) {
      return;
    }
    int count = Math.max(1, Math.min(8, (int) (w / (tech.gateUm() * dice.uniform(3, 8)))));
    for (int i = 0; i < count; i++) {
      s.add(Shape.poly((i + 0.5) * w / count - tech.gateUm() / 2, 0, tech.gateUm(), h));
    }
  }

  /** Paints along the bit cells of the axis; {@code pen} has its x along the strip. */
  void paint(Pen pen, Axis cells, double pitch, boolean folded) {
    for (Band band : bands) {
      List<Double> starts = new ArrayList<>();
      for (int i = 0; i + band.cells() <= cells.count(); i += band.cells()) {
        starts.add(cells.origin(i));
      }
      if (starts.isEmpty() || band.shapes().isEmpty()) {
        continue;
      }
      double w = band.cells() * pitch;
      Axis across = folded ? Axis.folded(starts, w) : Axis.at(starts, w);
      pen.lattice(band.shapes(), across, w, Axis.single(band.y(), band.height()), band.height());
    }
  }
}
