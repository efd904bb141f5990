package org.diesurvey.synthetic;

import java.util.OptionalDouble;

/**
 * What a caller fixes about a drawn die; everything else is drawn at random.
 *
 * @param umPerPx sampling, 0.05..7 um per pixel; where absent random in 0.15..2, mostly 0.3..1.2,
 *     and for the wide styles in 0.05..7
 * @param maxMegapixels largest photo, 0.2..200
 * @param coarsestNodeNm upper end of the process nodes drawn from, nm
 * @param finestNodeNm lower end of the process nodes drawn from, nm
 * @param framing how much of the die the photo shows
 * @param severity strength of light, dirt and camera faults: 0 none, 1 ordinary, 1.5 bad
 * @param style which contents the die has
 */
public record DrawOptions(
    OptionalDouble umPerPx,
    double maxMegapixels,
    double coarsestNodeNm,
    double finestNodeNm,
    Framing framing,
    double severity,
    Style style) {
  /** How much of the die the photo shows. */
  public enum Framing {
    /**
     * Mostly the whole die; a field where the die would be too small to be one, some of them with a
     * part of the die edge.
     */
    ANY,
    /** The whole die with background around it. */
    WHOLE_DIE,
    /** A field inside the die, no die edge in it. */
    FIELD
  }

  /** Which contents the die has. */
  public enum Style {
    /** Any mix; the core is mostly full. */
    ANY,
    /**
     * Any mix of a wider world: bare ground, fill, arrays of large devices, pads without cells,
     * rings away from the edge, and blocks of real layouts where there are any.
     */
    WIDE,
    /**
     * The wide world as whole chips of prototype runs show it: pieces in bare ground, rows that are
     * mostly fill cells, single rows, small macros close beside memories.
     */
    SPARSE,
    /** Memories, macros, logic and a full pad ring, all well visible. */
    SHOWPIECE;

    /** Whether the die is of the wider world. */
    boolean wide() {
      return this == WIDE || this == SPARSE;
    }
  }

  /** Checks the ranges. */
  public DrawOptions {
    if (umPerPx.isPresent()) {
      require("umPerPx", umPerPx.getAsDouble(), 0.05, 7);
    }
    require("maxMegapixels", maxMegapixels, 0.2, 200);
    require("coarsestNodeNm", coarsestNodeNm, 20, 3000);
    require("finestNodeNm", finestNodeNm, 20, coarsestNodeNm);
    require("severity", severity, 0, 1.5);
  }

  private static void require(String name, double value, double low, double high) {
    if (!(value >= low && value <= high)) {
      throw new IllegalArgumentException(
          name + " must be in " + low + ".." + high + ", was " + value);
    }
  }

  /** Random sampling, at most 12 MP, nodes 350 to 28 nm, ordinary faults. */
  public static DrawOptions defaults() {
    return new DrawOptions(OptionalDouble.empty(), 12, 350, 28, Framing.ANY, 1, Style.ANY);
  }

  /**
   * The same with a fixed sampling.
   *
   * @param value um per pixel
   */
  public DrawOptions withUmPerPx(double value) {
    return new DrawOptions(
        OptionalDouble.of(value),
        maxMegapixels,
        coarsestNodeNm,
        finestNodeNm,
        framing,
        severity,
        style);
  }

  /**
   * The same with another size limit.
   *
   * @param value megapixels
   */
  public DrawOptions withMaxMegapixels(double value) {
    return new DrawOptions(umPerPx, value, coarsestNodeNm, finestNodeNm, framing, severity, style);
  }

  /**
   * The same with another range of process nodes.
   *
   * @param coarsestNm upper end, nm
   * @param finestNm lower end, nm
   */
  public DrawOptions withNodes(double coarsestNm, double finestNm) {
    return new DrawOptions(umPerPx, maxMegapixels, coarsestNm, finestNm, framing, severity, style);
  }

  /**
   * The same with another framing.
   *
   * @param value framing
   */
  public DrawOptions withFraming(Framing value) {
    return new DrawOptions(
        umPerPx, maxMegapixels, coarsestNodeNm, finestNodeNm, value, severity, style);
  }

  /**
   * The same with stronger or weaker faults.
   *
   * @param value 0..1.5
   */
  public DrawOptions withSeverity(double value) {
    return new DrawOptions(
        umPerPx, maxMegapixels, coarsestNodeNm, finestNodeNm, framing, value, style);
  }

  /**
   * The same with another choice of contents.
   *
   * @param value style
   */
  public DrawOptions withStyle(Style value) {
    return new DrawOptions(
        umPerPx, maxMegapixels, coarsestNodeNm, finestNodeNm, framing, severity, value);
  }
}
