package org.diesurvey.estimates;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.diesurvey.quantity.Measured;
import org.junit.jupiter.api.Test;

class NodePlausibilityTest {
  private static final DensityTable TABLE = DensityTable.shipped();

  private static TexturePeriod period(double um, boolean alongX) {
    return new TexturePeriod(new Measured(um, 0.01 * um), alongX, 0.8);
  }

  private static MemoryBlock memory(String id, double um2, MemoryKind kind, double x, double y) {
    return new MemoryBlock(
        id,
        new BlockArea(um2, 0.01),
        Optional.empty(),
        List.of(period(x, true), period(y, false)),
        kind,
        OptionalInt.empty());
  }

  private static LogicBlock logic(double um) {
    return new LogicBlock("LOG1", new BlockArea(1e6, 0.01), List.of(period(um, false)));
  }

  private static NodePlausibility of(List<MemoryBlock> memories, List<LogicBlock> logic) {
    return new NodePlausibility(
        new DieEvidence(memories, logic, 0.2, 0, OptionalDouble.empty(), true), TABLE);
  }

  @Test
  void evidence_isTheLargestStaticMemoryAndTheRows() {
    List<MemoryBlock> memories =
        List.of(
            memory("ROM", 9e6, MemoryKind.ROM, 1, 1.1),
            memory("SMALL", 1e5, MemoryKind.STATIC, 3, 3.1),
            memory("LARGE", 2e5, MemoryKind.STATIC, 2.4, 3.16));
    assertEquals(
        List.of("bit-cell lattice of 2.40 µm × 3.16 µm", "row period of 7.40 µm in LOG1"),
        of(memories, List.of(logic(7.4))).evidence());
    NodePlausibility rom = of(memories.subList(0, 1), List.of());
    assertEquals(List.of(), rom.evidence());
    assertEquals(List.of(), rom.ranked());
    assertEquals(Optional.empty(), rom.conflict(7));
  }

  /** Equal beforehand, so a node's likelihood goes with how well its rows explain the period. */
  @Test
  void ranking_goesWithTheFitOfTheRows_bestFirst() {
    List<NodeLikelihood> ranked = of(List.of(), List.of(logic(7.4))).ranked();
    RowPeriod found = RowPeriod.of(logic(7.4), 0.2).orElseThrow();
    double sum = 0;
    for (double node : TABLE.nodes()) {
      sum += TABLE.at(DensityQuantity.ROW_HEIGHT_UM, node).map(found::likelihood).orElse(0.0);
    }
    for (NodeLikelihood n : ranked) {
      double own =
          found.likelihood(TABLE.at(DensityQuantity.ROW_HEIGHT_UM, n.nodeNm()).orElseThrow());
      assertEquals(own / sum, n.likelihood(), 1e-12);
      assertTrue(n.likelihood() >= 0.01, n.toString());
    }
    assertEquals(
        ranked.stream()
            .sorted(Comparator.comparingDouble(NodeLikelihood::likelihood).reversed())
            .toList(),
        ranked);
  }

  /** Two independent witnesses: the likelihoods multiply. */
  @Test
  void cellsAndRows_multiply() {
    List<MemoryBlock> m = List.of(memory("MEM1", 1e5, MemoryKind.STATIC, 2.4, 3.16));
    List<LogicBlock> l = List.of(logic(7.4));
    double both = quotient(of(m, l));
    assertEquals(quotient(of(m, List.of())) * quotient(of(List.of(), l)), both, 1e-6 * both);
  }

  /** Likelihood of 130 nm over that of 180 nm. */
  private static double quotient(NodePlausibility p) {
    double[] of = new double[2];
    for (NodeLikelihood n : p.ranked()) {
      of[0] += n.nodeNm() == 130 ? n.likelihood() : 0;
      of[1] += n.nodeNm() == 180 ? n.likelihood() : 0;
    }
    return of[0] / of[1];
  }

  @Test
  void conflict_namesTheEvidenceAndTheBestNode() {
    List<MemoryBlock> m = List.of(memory("MEM1", 1e5, MemoryKind.STATIC, 2.4, 3.16));
    NodePlausibility p = of(m, List.of(logic(7.4)));
    String said = p.conflict(28).orElseThrow().sentence();
    assertTrue(
        said.startsWith(
            "The stated process node of 28 nm does not fit the bit-cell lattice of 2.40 µm × 3.16"
                + " µm and the row period of 7.40 µm in LOG1; of the density table 150 nm fits"
                + " best."),
        said);
    assertEquals(150, p.ranked().get(0).nodeNm());
    assertEquals(Optional.empty(), p.conflict(150));
  }
}
