package org.diesurvey.estimates;

import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * NAND2-equivalents of logic: area x raw density x utilisation. The density comes from the node's
 * row of the table, from the row height measured (the NAND2 of open libraries is 0.41 to 0.80
 * squares of the row height), or from both, weighted by the inverse squares of their spreads.
 */
final class LogicModel {
  /**
   * Standard uncertainty of any gate count: one design built in five open libraries came to 36
   * kilogates within 12 %.
   */
  static final double DESIGN_SPREAD = 0.12;

  private final double scaleSd;
  private final Extent extent;
  private final Optional<LogRange> table;
  private final Optional<RowPeriod> rows;
  private final LogRange nand2PerRow;
  private final LogRange utilisation;
  private final double rowWeight;
  private final LogicBlock block;
  private final int index;

  private LogicModel(
      LogicBlock block,
      int index,
      DieEvidence die,
      DensityTable densities,
      Extent extent,
      Optional<LogRange> table,
      Optional<RowPeriod> rows) {
    this.block = block;
    this.index = index;
    this.scaleSd = die.scaleRelative();
    this.extent = extent;
    this.table = table;
    this.rows = rows;
    this.nand2PerRow = densities.any(DensityQuantity.NAND2_AREA_IN_ROW_HEIGHTS_SQUARED);
    this.utilisation = densities.any(DensityQuantity.UTILISATION);
    if (table.isPresent() && rows.isPresent()) {
      double a = 1 / square(table.get().logSd());
      double b = 1 / (square(nand2PerRow.logSd()) + square(2 * rows.get().logSd()));
      rowWeight = b / (a + b);
    } else {
      rowWeight = rows.isPresent() ? 1 : 0;
    }
  }

  /**
   * The model of a block; empty if neither rows nor the node are known. A block that does not show
   * its rows has those of the largest block that does, if there is no node to go by.
   */
  static Optional<LogicModel> of(
      LogicBlock block, int index, DieEvidence die, DensityTable table, Extent extent) {
    OptionalDouble node = die.nodeNm();
    Optional<LogRange> density =
        node.isPresent()
            ? table.at(DensityQuantity.GATE_DENSITY_KGATES_PER_MM2, node.getAsDouble())
            : Optional.empty();
    Optional<RowPeriod> rows = RowPeriod.of(block, die.umPerPx());
    if (rows.isEmpty() && density.isEmpty()) {
      rows = RowPeriod.of(die.logic(), die.umPerPx());
    }
    if (rows.isPresent() && density.isPresent()) {
      Optional<LogRange> known = table.at(DensityQuantity.ROW_HEIGHT_UM, node.getAsDouble());
      rows = known.isPresent() ? rows.map(r -> r.given(known.get())) : Optional.empty();
    }
    return density.isEmpty() && rows.isEmpty()
        ? Optional.empty()
        : Optional.of(new LogicModel(block, index, die, table, extent, density, rows));
  }

  /** NAND2-equivalents at one draw. */
  double nand2(Deviates d) {
    double scale = Math.exp(2 * scaleSd * d.z(Factor.SCALE));
    double um2 =
        block.area().um2()
            * scale
            * Math.exp(block.area().edgeRelative() * d.edge(index))
            * extent.logic().at(d.z(Factor.EXTENT));
    return um2
        * perUm2(d, scale)
        * Math.min(1, utilisation.at(d.z(Factor.UTILISATION)))
        * Math.exp(DESIGN_SPREAD * d.z(Factor.DESIGN));
  }

  /** Raw NAND2-equivalents per um2. */
  private double perUm2(Deviates d, double scale) {
    double row = rows.isPresent() ? rows.get().readings().at(d.rowReading()) : Double.NaN;
    double fromTable = table.map(t -> t.at(d.z(Factor.DENSITY)) / 1000).orElse(1.0);
    if (Double.isNaN(row)) {
      return fromTable;
    }
    double z = d.z(Factor.ROW);
    // The NAND2 and the height err independently: the variances of their logarithms add.
    double nand2Sd = z > 0 ? nand2PerRow.lowSd() : nand2PerRow.highSd();
    double spread = Math.exp(z * Math.hypot(nand2Sd, 2 * rows.orElseThrow().logSd()));
    double fromRows = spread / (nand2PerRow.centre() * row * row * scale);
    return Math.pow(fromTable, 1 - rowWeight) * Math.pow(fromRows, rowWeight);
  }

  boolean rowsRead() {
    return rows.isPresent() && !Double.isNaN(rows.get().readings().at(0));
  }

  LogicBlock block() {
    return block;
  }

  /** What the estimate rests on. */
  String origin(OptionalDouble nodeNm) {
    String t =
        table
            .map(
                r ->
                    String.format(
                        Locale.ROOT,
                        "raw density of the %s nm node from the density table, %.3g (%.3g to %.3g)"
                            + " thousand gates per mm\u00b2",
                        DensityTable.plain(nodeNm.orElseThrow()),
                        r.centre(),
                        r.low(),
                        r.high()))
            .orElse("");
    String r =
        rows.filter(p -> rowsRead())
            .map(
                p ->
                    String.format(
                        Locale.ROOT,
                        "row height from the period measured (%s), most likely %.3g \u00b5m",
                        p.words(),
                        p.readings().at(0)))
            .orElse("");
    String both = t + (t.isEmpty() || r.isEmpty() ? "" : ", joined with the ") + r;
    return "area of the logic; "
        + both
        + (r.isEmpty() ? "; its rows are not resolved" : "")
        + String.format(
            Locale.ROOT,
            "; rows filled to %.2g (%.2g to %.2g)",
            utilisation.centre(),
            utilisation.low(),
            utilisation.high());
  }

  private static double square(double v) {
    return v * v;
  }
}
