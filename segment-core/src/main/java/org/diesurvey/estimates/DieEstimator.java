package org.diesurvey.estimates;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.diesurvey.Supported;

/**
 * Bits, NAND2-equivalents and plausible nodes of a die. Immutable; the same evidence gives the same
 * estimates.
 */
@Supported
public final class DieEstimator {
  /** Transistors of a two-input NAND in static complementary logic. */
  public static final int TRANSISTORS_PER_NAND2 = 4;

  private final DensityTable table;
  private final Extent extent;

  /**
   * @param table reference densities
   * @param extent errors of extent of outlines that a program found
   */
  public DieEstimator(DensityTable table, Extent extent) {
    this.table = table;
    this.extent = extent;
  }

  /** The shipped errors of extent. */
  public static DieEstimator of(DensityTable table) {
    return new DieEstimator(table, Extent.shipped());
  }

  /** The reference densities. */
  public DensityTable table() {
    return table;
  }

  /**
   * Estimates what the evidence allows; what it does not is refused by a notice.
   *
   * @throws org.diesurvey.DieInputException NODE_NOT_IN_TABLE
   */
  public DieEstimates estimate(DieEvidence die) {
    die.nodeNm().ifPresent(table::requireNode);
    DieModel model = new DieModel(die, table, die.outlinesByHand() ? Extent.BY_HAND : extent);
    int regions = model.regions();
    Deviates deviates = model.deviates();
    double[] amounts = new double[regions];
    double[] out = new double[2];
    List<Samples> single = new ArrayList<>();
    for (int i = 0; i < regions; i++) {
      single.add(new Samples());
    }
    List<Samples> totals =
        regions == 0
            ? List.of()
            : AdaptiveDraws.run(
                2,
                random -> {
                  deviates.draw(random);
                  model.amounts(deviates, amounts);
                  if (single.get(0).size() < 2 * AdaptiveDraws.BLOCK) {
                    for (int i = 0; i < regions; i++) {
                      single.get(i).add(amounts[i]);
                    }
                  }
                  out[0] = model.bits(amounts);
                  out[1] = model.nand2(amounts);
                  return out;
                });
    NodePlausibility nodes = new NodePlausibility(die, table);
    return new DieEstimates(
        table.name(),
        table.version(),
        DieEstimates.COVERAGE,
        totals.isEmpty() ? 0 : totals.get(0).size(),
        totals(die, model, totals),
        regions(die, model, single),
        nodes.ranked(),
        nodes.evidence(),
        notices(die, model, nodes));
  }

  private List<DieTotal> totals(DieEvidence die, DieModel model, List<Samples> samples) {
    List<DieTotal> all = new ArrayList<>();
    if (!model.memories().isEmpty()) {
      MemoryModel largest =
          model.memories().stream()
              .max(Comparator.comparingDouble(m -> m.block().macro().um2()))
              .orElseThrow();
      Map<Factor, Double> alone = Budgets.alone(model, model::bits);
      all.add(
          new DieTotal(
              AmountKind.BITS,
              samples.get(0).estimate(),
              origins(die.nodeNm(), model),
              Budgets.lines(alone, remedies(die, largest.arraysKnown(), false, largest))));
    }
    if (!model.logic().isEmpty()) {
      LogicModel logic =
          model.logic().stream()
              .max(Comparator.comparingDouble(l -> l.block().area().um2()))
              .orElseThrow();
      Estimate gates = samples.get(1).estimate();
      Map<Factor, Double> alone = Budgets.alone(model, model::nand2);
      all.add(
          new DieTotal(
              AmountKind.NAND2,
              gates,
              logic.origin(die.nodeNm()),
              Budgets.lines(alone, remedies(die, false, logic.rowsRead(), null))));
      all.add(
          new DieTotal(
              AmountKind.TRANSISTORS,
              gates.times(TRANSISTORS_PER_NAND2),
              "four transistors per NAND2-equivalent of the logic; memories and macros not counted",
              List.of()));
    }
    return all;
  }

  private static String origins(OptionalDouble node, DieModel model) {
    Set<String> all = new LinkedHashSet<>();
    model.memories().forEach(m -> all.add(m.origin(node)));
    List<String> few = all.stream().limit(3).toList();
    return String.join(" | ", few) + (all.size() > 3 ? " | and others, see the regions" : "");
  }

  private Remedies remedies(DieEvidence die, boolean arrays, boolean rowsRead, MemoryModel memory) {
    double cell = 0;
    if (memory != null && die.nodeNm().isPresent()) {
      cell =
          table
              .at(memory.block().kind().cell(), die.nodeNm().getAsDouble())
              .map(LogRange::centre)
              .orElse(0.0);
    }
    double k = MacroEfficiency.shipped().k(0);
    double cells = memory == null ? 1e5 : memory.block().macro().um2() / Math.max(cell, 1);
    double macroSpread =
        Math.log(
                MacroEfficiency.bits(cells, k * Math.exp(-MacroEfficiency.shipped().logSd()))
                    / MacroEfficiency.bits(cells, k * Math.exp(MacroEfficiency.shipped().logSd())))
            / 2;
    return new Remedies(
        die.outlinesByHand(),
        arrays,
        rowsRead,
        cell,
        table.any(DensityQuantity.NAND2_AREA_IN_ROW_HEIGHTS_SQUARED).logSd(),
        macroSpread,
        table.any(DensityQuantity.ARRAY_EFFICIENCY).logSd());
  }

  private static List<RegionEstimate> regions(
      DieEvidence die, DieModel model, List<Samples> samples) {
    List<RegionEstimate> all = new ArrayList<>();
    int i = 0;
    for (MemoryModel m : model.memories()) {
      Estimate bits = samples.get(i++).estimate();
      all.add(
          new RegionEstimate(
              m.block().id(),
              AmountKind.BITS,
              bits,
              m.origin(die.nodeNm()),
              Organisations.near(bits)));
    }
    for (LogicModel l : model.logic()) {
      all.add(
          new RegionEstimate(
              l.block().id(),
              AmountKind.NAND2,
              samples.get(i++).estimate(),
              l.origin(die.nodeNm()),
              List.of()));
    }
    return all;
  }

  private static List<EstimateNotice> notices(
      DieEvidence die, DieModel model, NodePlausibility nodes) {
    List<EstimateNotice> all = new ArrayList<>();
    if (!model.memoriesUnknown().isEmpty()) {
      all.add(
          new EstimateNotice(
              "no-bits",
              "Bits are not estimated for "
                  + (model.memories().isEmpty() ? "any memory array" : ids(model))
                  + ": no process node was stated, and the photograph does not resolve the bit-cell"
                  + " lattice.",
              "State the node (--node NM) if you know it, or photograph an array finely enough to"
                  + " resolve its cells."));
    }
    if (!die.logic().isEmpty() && model.logic().isEmpty()) {
      all.add(
          new EstimateNotice(
              "no-gates",
              "Gates are not estimated: no process node was stated, and the photograph does not"
                  + " resolve the rows of the logic.",
              "State the node (--node NM) if you know it, or use a finer photograph."));
    }
    Optional<EstimateNotice> conflict =
        die.nodeNm().isPresent() ? nodes.conflict(die.nodeNm().getAsDouble()) : Optional.empty();
    conflict.ifPresent(all::add);
    return all;
  }

  private static String ids(DieModel model) {
    return String.join(", ", model.memoriesUnknown().stream().map(MemoryBlock::id).toList());
  }
}
