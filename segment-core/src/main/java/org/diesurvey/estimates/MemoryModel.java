package org.diesurvey.estimates;

import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * Bits of one memory region: of its bit-cell arrays by area x efficiency / cell area, or, where the
 * arrays are not known, of the whole macro by {@link MacroEfficiency}. With a resolved lattice the
 * scale cancels: area and cell are measured in the same pixels.
 */
final class MemoryModel {
  private final MemoryBlock block;
  private final int index;
  private final double scaleSd;
  private final BlockArea area;
  private final LogRange extent;
  private final Optional<CellLattice> lattice;
  private final Optional<Choices<LogRange>> cells;
  private final LogRange arrayEfficiency;

  private MemoryModel(
      MemoryBlock block,
      int index,
      DieEvidence die,
      Extent extent,
      Optional<CellLattice> lattice,
      Optional<Choices<LogRange>> cells,
      LogRange arrayEfficiency) {
    this.block = block;
    this.index = index;
    this.scaleSd = die.scaleRelative();
    this.area = block.arrays().orElse(block.macro());
    this.extent = block.arrays().isPresent() ? extent.arrays() : extent.macros();
    this.lattice = lattice;
    this.cells = cells;
    this.arrayEfficiency = arrayEfficiency;
  }

  /** The model of a block; empty if neither its lattice nor the node is known. */
  static Optional<MemoryModel> of(
      MemoryBlock block, int index, DieEvidence die, DensityTable table, Extent extent) {
    OptionalDouble node = die.nodeNm();
    Optional<Choices<LogRange>> cells =
        node.isPresent()
            ? CellKinds.at(table, node.getAsDouble(), block.kind(), block.ports())
            : Optional.empty();
    Optional<CellLattice> lattice = CellLattice.of(block.periods(), die.umPerPx());
    if (lattice.isPresent() && cells.isPresent()) {
      Choices<LogRange> known = cells.get();
      lattice = lattice.map(l -> l.given(known));
    }
    if (lattice.isEmpty() && cells.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        new MemoryModel(
            block,
            index,
            die,
            extent,
            lattice,
            cells,
            table.any(DensityQuantity.ARRAY_EFFICIENCY)));
  }

  /** Bits at one draw. */
  double bits(Deviates d) {
    double scale = Math.exp(2 * scaleSd * d.z(Factor.SCALE));
    double um2 =
        area.um2()
            * scale
            * Math.exp(area.edgeRelative() * d.edge(index))
            * extent.at(d.z(Factor.EXTENT));
    double read =
        lattice.isPresent() ? lattice.get().readings().at(d.latticeReading()) : Double.NaN;
    double cell =
        Double.isNaN(read)
            ? cells.orElseThrow().at(d.cellKind()).at(d.z(Factor.CELL))
            : read * Math.exp(lattice.orElseThrow().logSd() * d.z(Factor.LATTICE)) * scale;
    return block.arrays().isPresent()
        ? um2 * arrayEfficiency.at(d.z(Factor.EFFICIENCY)) / cell
        : MacroEfficiency.bits(um2 / cell, MacroEfficiency.shipped().k(-d.z(Factor.EFFICIENCY)));
  }

  MemoryBlock block() {
    return block;
  }

  boolean arraysKnown() {
    return block.arrays().isPresent();
  }

  /** What the estimate rests on. */
  String origin(OptionalDouble nodeNm) {
    String outline =
        arraysKnown()
            ? "area of the bit-cell arrays"
            : "area of the whole macro, its share of bit cells from published macros";
    if (lattice.isPresent() && !Double.isNaN(lattice.get().readings().at(0))) {
      Choices.Option<Double> best = lattice.get().readings().options().get(0);
      return outline
          + String.format(
              Locale.ROOT,
              "; bit cell from the lattice measured, %s, read as %.3g \u00b5m\u00b2 (%.0f %%%s)",
              lattice.get().words(),
              best.value(),
              100 * best.probability(),
              nodeNm.isPresent()
                  ? ", weighed with the density table for the node"
                  : " of the readings");
    }
    String resolved =
        lattice.isPresent()
            ? "; the periods found (" + lattice.get().words() + ") do not fit it"
            : "; its lattice is not resolved";
    LogRange typical = cells.orElseThrow().options().get(0).value();
    return outline
        + String.format(
            Locale.ROOT,
            "; %s bit cell of the %s nm node from the density table, most often %.3g \u00b5m\u00b2"
                + " (%.3g to %.3g)%s%s",
            block.kind().label(),
            DensityTable.plain(nodeNm.orElseThrow()),
            typical.centre(),
            typical.low(),
            typical.high(),
            ports(),
            resolved);
  }

  private String ports() {
    if (block.kind() != MemoryKind.STATIC) {
      return "";
    }
    return block.ports().isPresent()
        ? ", " + (block.ports().getAsInt() == 1 ? "one port" : "two ports") + " as stated"
        : ", ports not known";
  }
}
