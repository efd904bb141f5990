package org.diesurvey.estimates;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.diesurvey.DieInputException;
import org.diesurvey.quantity.Measured;
import org.junit.jupiter.api.Test;

class DieEstimatorTest {
  private static final DieEstimator ESTIMATOR = DieEstimator.of(DensityTable.shipped());
  private static final OptionalDouble NODE = OptionalDouble.of(130);

  private static MemoryBlock memory(
      String id, double um2, boolean arrays, List<TexturePeriod> periods, OptionalInt ports) {
    BlockArea area = new BlockArea(um2, 0.01);
    return new MemoryBlock(
        id, area, arrays ? Optional.of(area) : Optional.empty(), periods, MemoryKind.STATIC, ports);
  }

  private static MemoryBlock memory(double um2) {
    return memory("MEM1", um2, true, List.of(), OptionalInt.empty());
  }

  private static TexturePeriod period(double um, boolean alongX, double strength) {
    return new TexturePeriod(new Measured(um, 0.005 * um), alongX, strength);
  }

  /** Two mirrored cells of 1.2 um by two of 1.58 um: the one-port cell of the open SKY130. */
  private static List<TexturePeriod> lattice() {
    return List.of(period(2.4, true, 0.8), period(3.16, false, 0.6));
  }

  private static DieEvidence die(
      List<MemoryBlock> memories, List<LogicBlock> logic, double scale, OptionalDouble node) {
    return new DieEvidence(memories, logic, 0.2, scale, node, true);
  }

  private static Estimate total(DieEvidence die, AmountKind kind) {
    return ESTIMATOR.estimate(die).totals().stream()
        .filter(t -> t.kind() == kind)
        .findFirst()
        .orElseThrow()
        .amount();
  }

  private static double ratio(Estimate e) {
    return e.high() / e.low();
  }

  @Test
  void bits_areAreaTimesEfficiencyOverCell() {
    Estimate e =
        total(
            die(
                List.of(memory("MEM1", 1e6, true, List.of(), OptionalInt.of(2))),
                List.of(),
                0,
                NODE),
            AmountKind.BITS);
    // By hand: 10^6 um2 x 0.9 / 5.79 um2 of the two-port row of 130 nm; medians multiply only
    // roughly, because the ranges are not symmetric.
    assertEquals(1e6 * 0.9 / 5.79, e.value(), 0.12 * e.value());
    assertTrue(e.low() < 1e6 * 0.45 / 5.79 && e.high() > 1e6 * 0.94 / 5.79, e.toString());
  }

  @Test
  void commonFactors_doNotAverageOutInTotals() {
    List<MemoryBlock> many = new ArrayList<>();
    for (int i = 0; i < 16; i++) {
      many.add(memory("M" + i, 1e6 / 16, true, List.of(), OptionalInt.empty()));
    }
    Estimate one = total(die(List.of(memory(1e6)), List.of(), 0.02, NODE), AmountKind.BITS);
    Estimate sum = total(die(many, List.of(), 0.02, NODE), AmountKind.BITS);
    assertEquals(Math.log(ratio(one)), Math.log(ratio(sum)), 0.03);
  }

  @Test
  void statedPorts_narrowTheRange() {
    MemoryBlock known = memory("MEM1", 1e6, true, List.of(), OptionalInt.of(2));
    double unknownPorts =
        ratio(total(die(List.of(memory(1e6)), List.of(), 0, NODE), AmountKind.BITS));
    double twoPorts = ratio(total(die(List.of(known), List.of(), 0, NODE), AmountKind.BITS));
    assertTrue(twoPorts < 0.6 * unknownPorts, twoPorts + ", " + unknownPorts);
  }

  @Test
  void resolvedLattice_isUsed_narrowsTheRange_andNeedsNoNode() {
    MemoryBlock read = memory("MEM1", 1e6, true, lattice(), OptionalInt.empty());
    DieEstimates e = ESTIMATOR.estimate(die(List.of(read), List.of(), 0, NODE));
    assertTrue(e.totals().get(0).origin().contains("lattice measured"), e.totals().get(0).origin());
    Estimate withLattice = e.totals().get(0).amount();
    Estimate table = total(die(List.of(memory(1e6)), List.of(), 0, NODE), AmountKind.BITS);
    assertTrue(ratio(withLattice) < ratio(table));
    assertTrue(withLattice.covers(1e6 * 0.94 / 1.896), withLattice.toString());
    Estimate noNode =
        total(die(List.of(read), List.of(), 0, OptionalDouble.empty()), AmountKind.BITS);
    assertTrue(noNode.covers(1e6 * 0.94 / 1.896), noNode.toString());
    assertTrue(ratio(noNode) > ratio(withLattice), "without a node the readings stay open");
  }

  /** Area and cell are measured in the same pixels, so an error of the pitch cancels. */
  @Test
  void scale_cancelsWhereTheLatticeIsMeasured() {
    MemoryBlock read = memory("MEM1", 1e6, true, lattice(), OptionalInt.empty());
    OptionalDouble none = OptionalDouble.empty();
    Estimate exact = total(die(List.of(read), List.of(), 0, none), AmountKind.BITS);
    Estimate vague = total(die(List.of(read), List.of(), 0.2, none), AmountKind.BITS);
    assertEquals(Math.log(ratio(exact)), Math.log(ratio(vague)), 0.02);
    Estimate table = total(die(List.of(memory(1e6)), List.of(), 0.2, NODE), AmountKind.BITS);
    Estimate tableExact = total(die(List.of(memory(1e6)), List.of(), 0, NODE), AmountKind.BITS);
    assertTrue(ratio(table) > 1.1 * ratio(tableExact));
  }

  @Test
  void wholeMacro_isWiderThanArrays_andGivesFewerBits() {
    MemoryBlock macro = memory("MEM1", 1e5, false, List.of(), OptionalInt.empty());
    Estimate whole = total(die(List.of(macro), List.of(), 0, NODE), AmountKind.BITS);
    Estimate arrays = total(die(List.of(memory(1e5)), List.of(), 0, NODE), AmountKind.BITS);
    assertTrue(whole.value() < arrays.value());
    assertTrue(ratio(whole) > ratio(arrays));
  }

  @Test
  void foundOutlines_areLessCertainThanDrawnOnes() {
    MemoryBlock m = memory(1e6);
    Estimate drawn = total(die(List.of(m), List.of(), 0, NODE), AmountKind.BITS);
    Estimate found =
        total(new DieEvidence(List.of(m), List.of(), 0.2, 0, NODE, false), AmountKind.BITS);
    assertTrue(ratio(found) > ratio(drawn));
  }

  @Test
  void measuredRows_narrowGates_andTransistorsAreFourTimesGates() {
    BlockArea area = new BlockArea(1e6, 0.005);
    LogicBlock blind = new LogicBlock("LOG1", area, List.of());
    LogicBlock rows = new LogicBlock("LOG1", area, List.of(period(7.56, false, 0.7)));
    Estimate without = total(die(List.of(), List.of(blind), 0, NODE), AmountKind.NAND2);
    Estimate with = total(die(List.of(), List.of(rows), 0, NODE), AmountKind.NAND2);
    assertTrue(ratio(with) < ratio(without), with + " " + without);
    // IHP SG13G2, two rows of 3.78 um: 137.8 thousand raw gates per mm2, filled to 0.67.
    assertTrue(with.covers(137_800 * 0.67), with.toString());
    assertEquals(
        4 * with.value(),
        total(die(List.of(), List.of(rows), 0, NODE), AmountKind.TRANSISTORS).value(),
        1e-6);
  }

  @Test
  void nothingKnown_isRefused_notInvented() {
    LogicBlock blind = new LogicBlock("LOG1", new BlockArea(1e6, 0.005), List.of());
    DieEstimates e =
        ESTIMATOR.estimate(die(List.of(memory(1e6)), List.of(blind), 0.01, OptionalDouble.empty()));
    assertTrue(e.totals().isEmpty());
    assertTrue(e.regions().isEmpty());
    assertTrue(e.nodes().isEmpty());
    assertEquals(
        List.of("no-bits", "no-gates"), e.notices().stream().map(EstimateNotice::id).toList());
  }

  @Test
  void nodesThatFitTheRows_areRanked_andAForeignStatementIsReported() {
    LogicBlock rows =
        new LogicBlock("LOG1", new BlockArea(1e6, 0.005), List.of(period(2.8, false, 0.9)));
    List<TexturePeriod> cells = List.of(period(1.41, true, 0.9), period(2.69, false, 0.9));
    MemoryBlock m = memory("MEM1", 1e5, true, cells, OptionalInt.empty());
    DieEstimates e = ESTIMATOR.estimate(die(List.of(m), List.of(rows), 0, OptionalDouble.empty()));
    assertFalse(e.nodes().isEmpty());
    double best = e.nodes().get(0).nodeNm();
    assertTrue(best <= 90 && best >= 40, "best node " + best);
    double sum = e.nodes().stream().mapToDouble(NodeLikelihood::likelihood).sum();
    assertTrue(sum > 0.9 && sum <= 1 + 1e-9, "sum " + sum);
    DieEstimates other =
        ESTIMATOR.estimate(die(List.of(m), List.of(rows), 0, OptionalDouble.of(7)));
    assertTrue(
        other.notices().stream().anyMatch(n -> n.id().equals("node-conflict")),
        other.nodes().toString());
    DieEstimates same =
        ESTIMATOR.estimate(die(List.of(m), List.of(rows), 0, OptionalDouble.of(best)));
    assertTrue(same.notices().isEmpty(), same.notices().toString());
  }

  @Test
  void budget_namesTheDominantCause_andSumsToOne() {
    DieEstimates e = ESTIMATOR.estimate(die(List.of(memory(1e6)), List.of(), 0.02, NODE));
    List<BudgetLine> budget = e.totals().get(0).budget();
    assertEquals(1, budget.stream().mapToDouble(BudgetLine::share).sum(), 1e-9);
    assertTrue(budget.get(0).factor().startsWith("ports"), budget.get(0).factor());
    BudgetLine scale =
        budget.stream().filter(b -> b.factor().startsWith("scale")).findFirst().orElseThrow();
    assertEquals(0.04, scale.relative(), 0.003);
    assertTrue(
        scale.remedy().contains("stage micrometer") && scale.remedy().contains("0.3 %"),
        scale.remedy());
  }

  @Test
  void sameEvidence_givesTheSameEstimates() {
    DieEvidence die = die(List.of(memory(1e6)), List.of(), 0.02, NODE);
    assertEquals(ESTIMATOR.estimate(die), ESTIMATOR.estimate(die));
  }

  @Test
  void organisations_areHintsInsideTheInterval() {
    List<String> hints = Organisations.near(new Estimate(33_000, 20_000, 60_000));
    assertEquals("32 Kibit (power of two)", hints.get(0));
    assertTrue(hints.contains("36 Kibit (8 bits and parity)"), hints.toString());
    assertTrue(hints.size() <= 3);
    assertTrue(Organisations.near(new Estimate(100, 99, 101)).isEmpty());
  }

  @Test
  void nodeOutsideTheTable_isRefused() {
    DieEvidence die = die(List.of(memory(1e6)), List.of(), 0, OptionalDouble.of(1000));
    assertThrows(DieInputException.class, () -> ESTIMATOR.estimate(die));
  }

  @Test
  void wideBands_areThoseOfTheKindStated() {
    MemoryBlock rom =
        new MemoryBlock(
            "MEM1",
            new BlockArea(1e6, 0.01),
            Optional.of(new BlockArea(1e6, 0.01)),
            List.of(),
            MemoryKind.ROM,
            OptionalInt.empty());
    Estimate bits = total(die(List.of(rom), List.of(), 0, NODE), AmountKind.BITS);
    assertTrue(bits.value() > 1e6, "read-only cells are far smaller: " + bits);
  }

  /** Totals hold the single regions, which are told by their names. */
  @Test
  void regions_areEstimatedEach_andAddUp() {
    LogicBlock small = new LogicBlock("LOG1", new BlockArea(1e5, 0.01), List.of());
    LogicBlock large = new LogicBlock("LOG2", new BlockArea(4e5, 0.01), List.of());
    MemoryBlock own = memory("MEM2", 2e5, false, List.of(), OptionalInt.of(2));
    DieEstimates e =
        ESTIMATOR.estimate(die(List.of(memory(1e6), own), List.of(small, large), 0.01, NODE));
    assertEquals(
        List.of("MEM1", "MEM2", "LOG1", "LOG2"),
        e.regions().stream().map(RegionEstimate::id).toList());
    double[] of = e.regions().stream().mapToDouble(r -> r.amount().value()).toArray();
    assertEquals(4, of[3] / of[2], 0.02);
    assertEquals(1, e.totals().get(1).amount().value() / (of[2] + of[3]), 0.02);
    assertEquals(1, e.totals().get(0).amount().value() / (of[0] + of[1]), 0.05);
    assertFalse(e.regions().get(0).hints().isEmpty());
    assertTrue(e.regions().get(2).hints().isEmpty());
  }

  /** Fewer than four kinds of evidence are all named, more are pointed to. */
  @Test
  void originsOfAllMemories_areNamedUpToThree() {
    List<MemoryBlock> all = new ArrayList<>();
    all.add(memory("M1", 1e5, true, List.of(), OptionalInt.of(1)));
    all.add(memory("M2", 1e5, true, List.of(), OptionalInt.of(2)));
    all.add(memory("M3", 1e5, true, List.of(), OptionalInt.of(2)));
    all.add(memory("M4", 1e5, true, List.of(), OptionalInt.empty()));
    String three = ESTIMATOR.estimate(die(all, List.of(), 0, NODE)).totals().get(0).origin();
    assertEquals(3, three.split(" \\| ").length, three);
    assertFalse(three.contains("and others"), three);
    all.add(memory("M5", 1e5, false, List.of(), OptionalInt.of(2)));
    String more = ESTIMATOR.estimate(die(all, List.of(), 0, NODE)).totals().get(0).origin();
    assertTrue(more.startsWith(three), more);
    assertTrue(more.endsWith(" | and others, see the regions"), more);
  }

  /** One memory shows its lattice, the other nothing, and no node is stated. */
  @Test
  void memoriesThatCannotBeEstimated_areNamed() {
    MemoryBlock read = memory("MEM1", 1e6, true, lattice(), OptionalInt.empty());
    MemoryBlock blind = memory("MEM2", 1e6, true, List.of(), OptionalInt.empty());
    DieEstimates e =
        ESTIMATOR.estimate(die(List.of(read, blind), List.of(), 0, OptionalDouble.empty()));
    assertEquals(List.of("MEM1"), e.regions().stream().map(RegionEstimate::id).toList());
    assertEquals(1, e.notices().size());
    assertTrue(
        e.notices().get(0).sentence().startsWith("Bits are not estimated for MEM2:"),
        e.notices().get(0).sentence());
  }

  /**
   * What outlining the arrays would gain is that of one standard deviation of the periphery: by
   * hand for a macro of 10^5 um2 at a two-port cell is not asked for, the ordinary cell of 2.3 um2
   * is, so 43,478 cells.
   */
  @Test
  void advice_comparesWholeMacrosWithArrays() {
    MemoryBlock macro = memory("MEM1", 1e5, false, List.of(), OptionalInt.empty());
    List<BudgetLine> budget =
        ESTIMATOR.estimate(die(List.of(macro), List.of(), 0, NODE)).totals().get(0).budget();
    BudgetLine efficiency =
        budget.stream().filter(b -> b.factor().startsWith("efficiency")).findFirst().orElseThrow();
    MacroEfficiency fit = MacroEfficiency.shipped();
    double n = 1e5 / 2.3;
    double spread =
        Math.log(MacroEfficiency.bits(n, fit.k(-1)) / MacroEfficiency.bits(n, fit.k(1)));
    String percent = String.format(java.util.Locale.ROOT, "%.0f %%", 50 * spread);
    assertTrue(efficiency.remedy().contains("from " + percent + " to about"), efficiency.remedy());
    BudgetLine cell =
        budget.stream().filter(b -> b.factor().startsWith("bit-cell")).findFirst().orElseThrow();
    // A quarter of the side of a cell of 2.3 um2.
    assertTrue(cell.remedy().contains("about 0.38 \u00b5m per px"), cell.remedy());
  }
}
