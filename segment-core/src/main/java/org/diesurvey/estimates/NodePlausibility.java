package org.diesurvey.estimates;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * Process nodes ranked by how well they fit what the photograph resolves: bit-cell lattices and row
 * heights. All nodes of the table are equal beforehand. Nothing resolved, no ranking.
 */
final class NodePlausibility {
  /** A stated node that fits worse than the best by this factor contradicts the measurement. */
  private static final double CONFLICT = 0.01;

  /** Nodes less likely than this are not shown. */
  private static final double SHOWN = 0.01;

  private final DensityTable table;
  private final Optional<CellLattice> lattice;
  private final Optional<RowPeriod> rows;
  private final List<String> evidence = new ArrayList<>();

  NodePlausibility(DieEvidence die, DensityTable table) {
    this.table = table;
    lattice =
        die.memories().stream()
            .filter(m -> m.kind() == MemoryKind.STATIC)
            .sorted(Comparator.comparingDouble((MemoryBlock m) -> m.macro().um2()).reversed())
            .map(m -> CellLattice.of(m.periods(), die.umPerPx()))
            .flatMap(Optional::stream)
            .findFirst();
    rows = RowPeriod.of(die.logic(), die.umPerPx());
    lattice.ifPresent(l -> evidence.add("bit-cell lattice of " + l.words()));
    rows.ifPresent(r -> evidence.add("row period of " + r.words()));
  }

  /** What the ranking rests on; empty if nothing is resolved. */
  List<String> evidence() {
    return List.copyOf(evidence);
  }

  /** The nodes worth showing, best first; likelihoods over the sum of all. */
  List<NodeLikelihood> ranked() {
    if (evidence.isEmpty()) {
      return List.of();
    }
    List<NodeLikelihood> all =
        table.nodes().stream().map(n -> new NodeLikelihood(n, likelihood(n, false))).toList();
    double sum = all.stream().mapToDouble(NodeLikelihood::likelihood).sum();
    return all.stream()
        .map(n -> new NodeLikelihood(n.nodeNm(), sum > 0 ? n.likelihood() / sum : 0))
        .filter(n -> n.likelihood() >= SHOWN)
        .sorted(
            Comparator.comparingDouble(NodeLikelihood::likelihood)
                .reversed()
                .thenComparingDouble(NodeLikelihood::nodeNm))
        .toList();
  }

  /**
   * @param strictly whether periods must be those of cells and rows; else they may be of something
   *     else, with a small probability
   */
  private double likelihood(double node, boolean strictly) {
    double l = 1;
    if (lattice.isPresent()) {
      CellLattice found = lattice.get();
      l *=
          CellKinds.at(table, node, MemoryKind.STATIC, OptionalInt.empty())
              .map(c -> strictly ? found.fit(c) : found.likelihood(c))
              .orElse(0.0);
    }
    if (rows.isPresent()) {
      RowPeriod found = rows.get();
      l *=
          table
              .at(DensityQuantity.ROW_HEIGHT_UM, node)
              .map(r -> strictly ? found.fit(r) : found.likelihood(r))
              .orElse(0.0);
    }
    return l;
  }

  /** A warning if a stated node contradicts what was measured. */
  Optional<EstimateNotice> conflict(double statedNm) {
    if (evidence.isEmpty()) {
      return Optional.empty();
    }
    double best = 0;
    double bestNm = 0;
    for (double n : table.nodes()) {
      double l = likelihood(n, true);
      if (l > best) {
        best = l;
        bestNm = n;
      }
    }
    if (best == 0 || likelihood(statedNm, true) >= CONFLICT * best) {
      return Optional.empty();
    }
    return Optional.of(
        new EstimateNotice(
            "node-conflict",
            String.format(
                Locale.ROOT,
                "The stated process node of %s nm does not fit the %s; of the density table %s nm"
                    + " fits best.",
                DensityTable.plain(statedNm),
                String.join(" and the ", evidence),
                DensityTable.plain(bestNm)),
            "Check the node, the scale, and by eye what the period belongs to."));
  }
}
