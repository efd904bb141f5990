package org.diesurvey.synthetic;

import java.util.ArrayList;
import java.util.List;

/**
 * A drawn standard-cell library and how its cells are placed.
 *
 * @param rowUm row height
 * @param siteUm placement step
 * @param cells shapes per cell, in a row of {@code rowUm}, power rail at the top
 * @param widths sites per cell, same order
 * @param weights how often each cell is used
 * @param railWeight diffusion coverage of the line under the power rail; 0 for none
 * @param tapEveryUm distance between tap columns; 0 for none
 * @param rowGapUm gap after each pair of rows
 * @param fillerDiffusion how many of the gaps hold fill cells with diffusion
 * @param filler those cells
 * @param repeating the same run of cells in every row, as in a datapath or a flip-flop memory
 */
record LogicStyle(
    double rowUm,
    double siteUm,
    List<List<Shape>> cells,
    List<Integer> widths,
    List<Double> weights,
    double railUm,
    double railWeight,
    double wellShare,
    double wellWeight,
    double tapEveryUm,
    double rowGapUm,
    double utilisation,
    double utilisationSpread,
    double fillerDiffusion,
    Filler filler,
    boolean repeating) {
  /**
   * How fill cells look and how they lie.
   *
   * @param gapSites bare sites between two of them; 0 makes them one bar
   * @param nHeight height of the upper island, share of the row; so are the next two
   * @param pTop where the lower island begins
   * @param pHeight its height
   * @param largestSites sites of the largest, a power of two
   * @param longShare how many of the gaps between cells are long ones of 10 to 100 sites
   */
  record Filler(
      double gapSites,
      double nHeight,
      double pTop,
      double pHeight,
      int largestSites,
      double longShare) {
    /** Decoupling cells of up to 16 sites, in short gaps for the most part. */
    static final Filler USUAL = new Filler(0.6, 0.24, 0.55, 0.3, 16, 0.03);
  }

  static LogicStyle draw(Dice dice, Technology tech, boolean hardNegative) {
    double row = tech.rowHeightUm() * (dice.chance(0.15) ? dice.uniform(0.8, 1.5) : 1);
    double site = tech.siteUm();
    int kinds = dice.between(12, 48);
    double rail = row * dice.uniform(0.04, 0.12);
    // A third of the libraries are fine and even: short islands of one height, rows well filled.
    boolean even = dice.chance(0.35);
    double nTop = dice.uniform(0.08, 0.16);
    double nHeight = even ? dice.uniform(0.22, 0.38) : dice.uniform(0.14, 0.36);
    double pHeight = Math.min(0.9 - nTop - nHeight - 0.12, nHeight * dice.uniform(1, 1.9));
    double steadiness = even ? dice.uniform(0.6, 1) : dice.uniform(0, 1);
    double polyShare = dice.uniform(0, 1);
    double breaks = dice.uniform(0.1, 0.9);
    double typicalPiece = even ? dice.logUniform(0.6, 2) : dice.logUniform(1, 6);
    List<List<Shape>> cells = new ArrayList<>();
    List<Integer> widths = new ArrayList<>();
    List<Double> weights = new ArrayList<>();
    for (int k = 0; k < kinds; k++) {
      boolean flop = k % 6 == 0;
      int sites = flop ? dice.between(14, 30) : dice.between(2, 12);
      widths.add(sites);
      weights.add(dice.logUniform(0.05, 1) * (flop ? 0.7 : 1));
      cells.add(
          cell(
              dice.child("cell", k),
              tech,
              sites * site,
              row,
              nTop,
              nHeight,
              pHeight,
              steadiness,
              breaks,
              typicalPiece,
              polyShare));
    }
    boolean repeating = hardNegative || dice.chance(0.03);
    return new LogicStyle(
        row,
        site,
        List.copyOf(cells),
        List.copyOf(widths),
        List.copyOf(weights),
        rail,
        dice.chance(even ? 0.2 : 0.4) ? dice.uniform(0.3, 1) : 0,
        dice.uniform(0.4, 0.6),
        dice.chance(0.3) ? 0 : dice.uniform(0.1, even ? 0.4 : 1),
        dice.chance(0.5) ? dice.uniform(14, 60) * tech.gateUm() / 0.13 : 0,
        even ? 0 : rowGap(dice, tech, row),
        !even && dice.chance(0.16)
            ? dice.uniform(0.3, 0.6)
            : even || dice.chance(0.4) ? dice.uniform(0.88, 0.995) : dice.uniform(0.6, 0.95),
        even || dice.chance(0.4) ? dice.uniform(0, 0.04) : dice.uniform(0, 0.2),
        dice.chance(0.35) ? dice.uniform(0.2, 0.9) : 0,
        Filler.USUAL,
        repeating);
  }

  /**
   * The same library where few cells lie among fill cells, as in blocks that were given much more
   * room than they need: rows are bars from end to end, or a lattice of equal fill cells.
   */
  LogicStyle mostlyFilled(Dice dice) {
    boolean bars = dice.chance(0.5);
    Filler fill =
        new Filler(
            bars ? 0 : dice.uniform(0.3, 2),
            dice.uniform(0.08, 0.34),
            dice.uniform(0.5, 0.7),
            dice.uniform(0.08, 0.3),
            1 << dice.between(1, 6),
            dice.uniform(0.05, 0.8));
    return new LogicStyle(
        rowUm,
        siteUm,
        cells,
        widths,
        weights,
        railUm,
        dice.chance(0.6) ? dice.uniform(0.3, 1) : railWeight,
        wellShare,
        wellWeight,
        tapEveryUm,
        0,
        dice.uniform(0.04, 0.55),
        dice.uniform(0, 0.2),
        dice.uniform(0.75, 1),
        fill,
        false);
  }

  /** Space after a pair of rows: none, some, or the wide routing channels of few metal layers. */
  private static double rowGap(Dice dice, Technology tech, double row) {
    if (tech.nodeNm() > 220 && dice.chance(0.2)) {
      return row * dice.uniform(0.5, 3);
    }
    return dice.chance(0.12) ? row * dice.uniform(0.2, 1.2) : 0;
  }

  private static List<Shape> cell(
      Dice dice,
      Technology tech,
      double w,
      double row,
      double nTop,
      double nHeight,
      double pHeight,
      double steadiness,
      double breaks,
      double typicalPiece,
      double polyShare) {
    List<Shape> s = new ArrayList<>();
    double f = tech.diffusionUm();
    double side = Math.min(w * 0.2, tech.siteUm() * dice.uniform(0.15, 0.5));
    double piece = tech.siteUm() * typicalPiece * dice.uniform(0.6, 1.5);
    for (int half = 0; half < 2; half++) {
      double full = row * (half == 0 ? nHeight : pHeight);
      double x = side;
      while (x < w - side - f * 0.5) {
        double len = Math.min(w - side - x, piece * dice.logUniform(0.5, 2));
        if (!dice.chance(breaks)) {
          len = Math.min(w - side - x, len * 2.5);
        }
        double share = steadiness + (1 - steadiness) * dice.uniform(0.35, 1);
        double tall = Math.max(Math.min(full, f), full * share);
        double y = half == 0 ? row * nTop : row * (1 - nTop) - tall;
        if (dice.chance(0.25)) {
          y += half == 0 ? (full - tall) : -(full - tall);
        }
        s.add(Shape.diffusion(x, y, len, tall));
        x += len + Math.max(f * 0.9, tech.siteUm() * dice.uniform(0.3, 0.9));
      }
    }
    if (polyShare > 0.25) {
      int gates = (int) (w / tech.siteUm());
      for (int g = 0; g < gates; g++) {
        if (dice.chance(0.8)) {
          double x = (g + 0.5) * tech.siteUm() - tech.gateUm() / 2;
          s.add(Shape.poly(x, row * 0.08, tech.gateUm(), row * 0.84));
        }
      }
    }
    return List.copyOf(s);
  }

  int choose(Dice dice) {
    double sum = 0;
    for (double v : weights) {
      sum += v;
    }
    double at = dice.uniform(0, sum);
    for (int i = 0; i < weights.size(); i++) {
      at -= weights.get(i);
      if (at < 0) {
        return i;
      }
    }
    return weights.size() - 1;
  }
}
