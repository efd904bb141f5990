package org.diesurvey.estimates;

import java.util.List;

/**
 * How far the areas that a program found lie from the true ones because blocks were merged, cut or
 * missed: true over found area of all regions of a class on a die, as ranges (resource {@code
 * extent.csv}). They lie between what the shipped model does on dies rendered from open layouts
 * (arrays 0.63 to 0.94, logic 0.99 to 1.03) and on drawn dies, where it is far worse: see
 * docs/results/estimates.md. The hidden command {@code check-estimates} fits them again after a new
 * model. Outlines drawn by a person have no such error.
 *
 * @param arrays bit-cell arrays inside memory regions
 * @param macros whole memory regions
 * @param logic logic regions
 */
public record Extent(LogRange arrays, LogRange macros, LogRange logic) {
  private static final LogRange NONE = new LogRange(1, 1, 1);

  /** Outlines drawn by a person. */
  public static final Extent BY_HAND = new Extent(NONE, NONE, NONE);

  /** The shipped fit. */
  public static Extent shipped() {
    return Shipped.EXTENT;
  }

  private static final class Shipped {
    static final Extent EXTENT = new Extent(row("arrays"), row("macros"), row("logic"));
  }

  private static LogRange row(String name) {
    for (List<String> r : CsvRows.of(DensityTable.resource("extent.csv"))) {
      if (r.get(0).equals(name)) {
        return new LogRange(
            Double.parseDouble(r.get(1)),
            Double.parseDouble(r.get(2)),
            Double.parseDouble(r.get(3)));
      }
    }
    throw new IllegalStateException("extent.csv lacks " + name);
  }
}
