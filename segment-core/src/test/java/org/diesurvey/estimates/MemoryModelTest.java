package org.diesurvey.estimates;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.SplittableRandom;
import org.diesurvey.quantity.Measured;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Bits of one memory by hand, at the medians and with single causes drawn. */
class MemoryModelTest {
  private static final OptionalDouble NODE = OptionalDouble.of(130);
  private static final OptionalDouble NONE = OptionalDouble.empty();
  private static final DensityTable TABLE = DensityTable.shipped();
  private static final Deviates MEDIANS = new Deviates(1);

  /** Two mirrored cells of 1.2 um by two of 1.58 um. */
  private static List<TexturePeriod> lattice(double stretch) {
    return List.of(
        new TexturePeriod(new Measured(2.4 * stretch, 0.024), true, 0.8),
        new TexturePeriod(new Measured(3.16 * stretch, 0.0316), false, 0.8));
  }

  private static MemoryBlock block(
      double um2, boolean arrays, List<TexturePeriod> periods, MemoryKind kind, OptionalInt ports) {
    return new MemoryBlock(
        "MEM1",
        new BlockArea(2 * um2, 0.02),
        arrays ? Optional.of(new BlockArea(um2, 0.03)) : Optional.empty(),
        periods,
        kind,
        ports);
  }

  private static MemoryBlock plain(double um2, boolean arrays) {
    return block(um2, arrays, List.of(), MemoryKind.STATIC, OptionalInt.of(2));
  }

  private static MemoryModel model(MemoryBlock b, OptionalDouble node, double scale, Extent e) {
    DieEvidence die = new DieEvidence(List.of(b), List.of(), 0.2, scale, node, true);
    return MemoryModel.of(b, 0, die, TABLE, e).orElseThrow();
  }

  private static double ratio(MemoryModel m, Factor factor, Deviates d) {
    d.drawOnly(factor, new SplittableRandom(8));
    return m.bits(d) / m.bits(MEDIANS);
  }

  /** The two-port cell of 130 nm, 5.79 um2; nine tenths of the arrays are cells. */
  @Test
  void arrays_areAreaTimesEfficiencyOverCell() {
    MemoryModel m = model(plain(1e6, true), NODE, 0, Extent.BY_HAND);
    assertEquals(1e6 * 0.9 / 5.79, m.bits(MEDIANS), 1e-6);
    assertTrue(m.arraysKnown());
  }

  /** b bits of a whole macro fill area / cell = b + k sqrt(b). */
  @Test
  void wholeMacro_isItsCellsAndItsPeriphery() {
    MemoryModel m = model(plain(1e6, false), NODE, 0, Extent.BY_HAND);
    double b = m.bits(MEDIANS);
    double k = MacroEfficiency.shipped().k(0);
    assertEquals(2e6 / 5.79, b + k * Math.sqrt(b), 1e-3);
    assertFalse(m.arraysKnown());
    Deviates d = new Deviates(1);
    double ratio = ratio(m, Factor.EFFICIENCY, d);
    // More efficient is less periphery.
    assertEquals(d.z(Factor.EFFICIENCY) > 0, ratio > 1);
  }

  @ParameterizedTest
  @ValueSource(booleans = {true, false})
  void foundOutlines_areCorrectedByTheExtentOfTheirKind(boolean arrays) {
    MemoryBlock b = plain(1e6, arrays);
    LogRange extent = arrays ? Extent.shipped().arrays() : Extent.shipped().macros();
    Deviates d = new Deviates(1);
    d.drawOnly(Factor.EXTENT, new SplittableRandom(8));
    double um2 = (arrays ? 1e6 : 2e6) * extent.at(d.z(Factor.EXTENT));
    double found = model(b, NODE, 0, Extent.shipped()).bits(d);
    double byHand = model(plain(arrays ? um2 : um2 / 2, arrays), NODE, 0, Extent.BY_HAND).bits(d);
    assertEquals(byHand, found, 1e-6 * byHand);
  }

  @Test
  void edgeAndScale_moveTheAreaAsDrawn() {
    MemoryModel m = model(plain(1e6, true), NODE, 0.01, Extent.BY_HAND);
    Deviates d = new Deviates(1);
    double byEdge = ratio(m, Factor.EDGE, d);
    assertEquals(Math.exp(0.03 * d.edge(0)), byEdge, 1e-9);
    d = new Deviates(1);
    double byScale = ratio(m, Factor.SCALE, d);
    assertEquals(Math.exp(2 * 0.01 * d.z(Factor.SCALE)), byScale, 1e-9);
  }

  /** Cell and area in the same pixels: a pitch that is wrong leaves the bits. */
  @Test
  void lattice_cancelsTheScale() {
    MemoryBlock b = block(1e6, true, lattice(1), MemoryKind.STATIC, OptionalInt.empty());
    MemoryModel m = model(b, NONE, 0.01, Extent.BY_HAND);
    assertEquals(1e6 * 0.9 / (1.2 * 1.58), m.bits(MEDIANS), 1e-6);
    assertEquals(1, ratio(m, Factor.SCALE, new Deviates(1)), 1e-12);
    MemoryBlock wide = block(1.21e6, true, lattice(1.1), MemoryKind.STATIC, OptionalInt.empty());
    assertEquals(m.bits(MEDIANS), model(wide, NONE, 0, Extent.BY_HAND).bits(MEDIANS), 1e-6);
    Deviates d = new Deviates(1);
    d.drawOnly(Factor.LATTICE, new SplittableRandom(8));
    double cell = 2.4 * 3.16 / 4;
    double drawn = 1e6 * 0.9 / (cell * Math.exp(0.01 * Math.sqrt(2) * d.z(Factor.LATTICE)));
    assertTrue(
        List.of(0.25, 0.5, 1.0, 2.0, 4.0).stream().anyMatch(f -> close(drawn * f, m.bits(d))));
  }

  private static boolean close(double a, double b) {
    return Math.abs(a / b - 1) < 1e-9;
  }

  @Test
  void nothingKnown_givesNoModel() {
    MemoryBlock b = plain(1e6, true);
    DieEvidence die = new DieEvidence(List.of(b), List.of(), 0.2, 0, NONE, true);
    assertEquals(Optional.empty(), MemoryModel.of(b, 0, die, TABLE, Extent.BY_HAND));
  }

  @Test
  void origin_saysWhatTheEstimateRestsOn() {
    assertOrigin(
        "area of the bit-cell arrays; static bit cell of the 130 nm node from the density table,"
            + " most often 5.79 µm² (4.00 to 7.50), two ports as stated; its lattice is not"
            + " resolved",
        plain(1e6, true),
        NODE);
    assertOrigin(
        "area of the whole macro, its share of bit cells from published macros; static bit cell of"
            + " the 130 nm node from the density table, most often 2.30 µm² (1.50 to 3.20), one"
            + " port as stated; its lattice is not resolved",
        block(1e6, false, List.of(), MemoryKind.STATIC, OptionalInt.of(1)),
        NODE);
    assertOrigin(
        "area of the bit-cell arrays; rom bit cell of the 130 nm node from the density table, most"
            + " often 0.340 µm² (0.140 to 0.850); its lattice is not resolved",
        block(1e6, true, List.of(), MemoryKind.ROM, OptionalInt.empty()),
        NODE);
    // 0.5 x 0.5 and two times 0.32 x 0.18: four cells in the rectangle of the periods.
    assertOrigin(
        "area of the bit-cell arrays; bit cell from the lattice measured, 2.40 µm × 3.16 µm, read"
            + " as 1.90 µm² (25 % of the readings)",
        block(1e6, true, lattice(1), MemoryKind.STATIC, OptionalInt.empty()), NONE);
  }

  @Test
  void foreignLattice_leavesTheTable_andIsNamed() {
    MemoryBlock b = block(1e6, true, lattice(4), MemoryKind.ROM, OptionalInt.empty());
    MemoryModel m = model(b, NODE, 0, Extent.BY_HAND);
    assertEquals(1e6 * 0.9 / 0.34, m.bits(MEDIANS), 1e-6);
    assertTrue(
        m.origin(NODE).endsWith("; the periods found (9.60 µm × 12.6 µm) do not fit it"),
        m.origin(NODE));
  }

  private static void assertOrigin(String words, MemoryBlock block, OptionalDouble node) {
    assertEquals(words, model(block, node, 0, Extent.BY_HAND).origin(node));
  }
}
