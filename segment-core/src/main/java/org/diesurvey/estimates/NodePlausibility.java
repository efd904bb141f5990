package org.diesurvey.estimates;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * Process nodes ranked by how well they fit what the photograph resolves: bit-cell lattices and row
 * heights. All nodes of the table are equal beforehand. Nothing resolved, no ranking.
 *
 * @param ranked likelihoods that sum to 1, best first; empty if nothing is resolved
 * @param evidence what the ranking rests on
 */
record NodePlausibility(List<NodeLikelihood> ranked, List<String> evidence) {
  /** A stated node less likely than the best by this factor contradicts the measurement. */
  private static final double CONFLICT = 0.01;

  /** Nodes less likely than this are not shown. */
  private static final double SHOWN = 0.01;

  static NodePlausibility of(DieEvidence die, DensityTable table) {
    Optional<CellLattice> lattice =
        die.memories().stream()
            .filter(m -> m.kind() == MemoryKind.STATIC)
            .sorted(Comparator.comparingDouble((MemoryBlock m) -> m.macro().um2()).reversed())
            .map(m -> CellLattice.of(m.periods(), die.umPerPx()))
            .flatMap(Optional::stream)
            .findFirst();
    Optional<RowPeriod> rows = RowPeriod.of(die.logic(), die.umPerPx());
    List<String> evidence = new ArrayList<>();
    lattice.ifPresent(l -> evidence.add("bit-cell lattice of " + l.words()));
    rows.ifPresent(r -> evidence.add("row period of " + r.words()));
    if (evidence.isEmpty()) {
      return new NodePlausibility(List.of(), List.of());
    }
    Map<Double, Double> likelihoods = new HashMap<>();
    for (double node : table.nodes()) {
      likelihoods.put(node, likelihood(node, table, lattice, rows));
    }
    double sum = likelihoods.values().stream().mapToDouble(Double::doubleValue).sum();
    List<NodeLikelihood> ranked =
        likelihoods.entrySet().stream()
            .map(e -> new NodeLikelihood(e.getKey(), sum > 0 ? e.getValue() / sum : 0))
            .sorted(
                Comparator.comparingDouble(NodeLikelihood::likelihood)
                    .reversed()
                    .thenComparingDouble(NodeLikelihood::nodeNm))
            .toList();
    return new NodePlausibility(ranked, evidence);
  }

  private static double likelihood(
      double node, DensityTable table, Optional<CellLattice> lattice, Optional<RowPeriod> rows) {
    double l = 1;
    if (lattice.isPresent()) {
      l *=
          CellKinds.at(table, node, MemoryKind.STATIC, OptionalInt.empty())
              .map(c -> lattice.get().likelihood(c))
              .orElse(0.0);
    }
    if (rows.isPresent()) {
      l *=
          table
              .at(DensityQuantity.ROW_HEIGHT_UM, node)
              .map(r -> rows.get().likelihood(r))
              .orElse(0.0);
    }
    return l;
  }

  /** The nodes worth showing. */
  List<NodeLikelihood> shown() {
    return ranked.stream().filter(n -> n.likelihood() >= SHOWN).toList();
  }

  /** A warning if a stated node contradicts what was measured. */
  Optional<EstimateNotice> conflict(double statedNm) {
    if (ranked.isEmpty() || ranked.get(0).likelihood() == 0) {
      return Optional.empty();
    }
    NodeLikelihood best = ranked.get(0);
    double stated = interpolated(statedNm);
    if (stated >= CONFLICT * best.likelihood()) {
      return Optional.empty();
    }
    return Optional.of(
        new EstimateNotice(
            "node-conflict",
            String.format(
                Locale.ROOT,
                "The stated process node of %s nm does not fit the %s; %s nm fits best.",
                DensityTable.plain(statedNm),
                String.join(" and the ", evidence),
                DensityTable.plain(best.nodeNm())),
            "Check the node, the scale, and by eye what the period belongs to; the estimates use"
                + " the node as stated together with the measurement."));
  }

  /** Likelihood of a node between those of the table: the larger of its neighbours'. */
  private double interpolated(double nm) {
    double below = 0;
    double above = Double.MAX_VALUE;
    for (NodeLikelihood n : ranked) {
      if (n.nodeNm() <= nm) {
        below = Math.max(below, n.nodeNm());
      }
      if (n.nodeNm() >= nm) {
        above = Math.min(above, n.nodeNm());
      }
    }
    double best = 0;
    for (NodeLikelihood n : ranked) {
      if (n.nodeNm() == below || n.nodeNm() == above) {
        best = Math.max(best, n.likelihood());
      }
    }
    return best;
  }
}
