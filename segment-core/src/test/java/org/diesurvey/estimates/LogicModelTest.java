package org.diesurvey.estimates;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import org.apache.commons.math3.stat.descriptive.SummaryStatistics;
import org.diesurvey.quantity.Measured;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Gates of one block by hand, from a table of round figures: all spreads are those of 0.8 to 1. */
class LogicModelTest {
  private static final OptionalDouble NODE = OptionalDouble.of(130);
  private static final OptionalDouble NONE = OptionalDouble.empty();

  /** Standard deviation of the logarithm of a range of 0.8, 1, 1.25. */
  private static final double SPREAD = Math.log(1.25) / LogRange.Z95;

  private static DensityTable table;

  @BeforeAll
  static void table(@TempDir Path folder) throws IOException {
    Path file =
        Files.writeString(
            folder.resolve("round.csv"),
            """
            node_nm,quantity,low,centre,high,obtained,source
            130,gate_density_kgates_per_mm2,80,100,125,memory,invented
            130,row_height_um,3.2,4,5,memory,invented
            any,nand2_area_in_row_heights_squared,0.4,0.5,0.625,memory,invented
            any,utilisation,0.5,0.9,1,memory,invented
            """);
    table = DensityTable.shipped().with(file);
  }

  private static LogicBlock block(double mm2, double... periodUm) {
    List<TexturePeriod> periods =
        periodUm.length == 0
            ? List.of()
            : List.of(
                new TexturePeriod(new Measured(periodUm[0], SPREAD / 2 * periodUm[0]), false, 0.7));
    return new LogicBlock("LOG1", new BlockArea(1e6 * mm2, 0.03), periods);
  }

  private static LogicModel model(
      LogicBlock block, OptionalDouble node, double umPerPx, double scale) {
    DieEvidence die = new DieEvidence(List.of(), List.of(block), umPerPx, scale, node, true);
    return LogicModel.of(block, 0, die, table, Extent.shipped()).orElseThrow();
  }

  private static double median(LogicModel m) {
    return m.nand2(new Deviates(1)) / Extent.shipped().logic().centre();
  }

  @Test
  void fromTheTable_isAreaTimesDensityTimesFill() {
    assertEquals(2 * 100_000 * 0.9, median(model(block(2), NODE, 0.2, 0)), 1e-6);
  }

  /** Two rows of 4 um in a period of 8 um: a NAND2 of half of 16 um2. */
  @Test
  void fromRows_isAreaOverTheNand2OfTheRowHeight() {
    assertEquals(2e6 / 8 * 0.9, median(model(block(2, 8), NONE, 0.2, 0)), 1e-6);
  }

  /**
   * 100 thousand per mm2 by the table and 125 by the rows, the latter with two equal uncertainties:
   * of the NAND2 and of the height, twice. The mean of least variance (inverse variances as
   * weights, JCGM 100:2008 annex H.5 for the like, numbering from memory) takes two parts of the
   * first.
   */
  @Test
  void fromBoth_isTheMeanOfLeastVariance() {
    double mean = Math.exp((2 * Math.log(100_000) + Math.log(125_000)) / 3);
    assertEquals(mean * 0.9, median(model(block(1, 8), NODE, 0.2, 0)), 1e-6);
  }

  /**
   * A pitch that is wrong by what was drawn gives the gates that the wrong photograph gives: the
   * square of it by the table, the same number by rows, since area and row are in the same pixels.
   */
  @ParameterizedTest
  @CsvSource({"130, 0, 2", "0, 8, 0", "130, 8, 1.3333333333333333"})
  void scale_isSharedByAreaAndRows(double node, double periodUm, double power) {
    OptionalDouble nodeNm = node > 0 ? OptionalDouble.of(node) : NONE;
    double[] period = periodUm > 0 ? new double[] {periodUm} : new double[0];
    Deviates d = new Deviates(1);
    d.drawOnly(Factor.SCALE, new SplittableRandom(3));
    double stretch = Math.exp(0.01 * d.z(Factor.SCALE));
    LogicModel uncertain = model(block(1, period), nodeNm, 0.2, 0.01);
    for (int i = 0; i < period.length; i++) {
      period[i] *= stretch;
    }
    LogicModel wrong = model(block(stretch * stretch, period), nodeNm, 0.2 * stretch, 0);
    double drawn = uncertain.nand2(d) / uncertain.nand2(new Deviates(1));
    assertEquals(Math.pow(stretch, power), drawn, 1e-9);
    assertEquals(median(wrong), median(uncertain) * drawn, 1e-6);
  }

  /** Spread of the logarithm of gates with one cause drawn alone. */
  private static SummaryStatistics spread(LogicModel model, Factor factor) {
    SplittableRandom random = new SplittableRandom(11);
    Deviates d = new Deviates(1);
    SummaryStatistics s = new SummaryStatistics();
    for (int i = 0; i < 20_000; i++) {
      d.drawOnly(factor, random);
      s.addValue(Math.log(model.nand2(d)));
    }
    return s;
  }

  /** Each cause alone has the spread that went in; 20,000 draws know theirs to 0.5 %. */
  @Test
  void causesAlone_haveTheirOwnSpread() {
    LogicModel byTable = model(block(1), NODE, 0.2, 0);
    assertEquals(0.03, spread(byTable, Factor.EDGE).getStandardDeviation(), 0.0006);
    assertEquals(SPREAD, spread(byTable, Factor.DENSITY).getStandardDeviation(), 0.002);
    assertEquals(0.12, spread(byTable, Factor.DESIGN).getStandardDeviation(), 0.0024);
    assertEquals(0, spread(byTable, Factor.ROW).getStandardDeviation());
    LogRange extent = Extent.shipped().logic();
    SummaryStatistics s = spread(byTable, Factor.EXTENT);
    assertEquals(Math.sqrt(mean2(extent)), s.getStandardDeviation(), 0.002);
    LogicModel byRows = model(block(1, 8), NONE, 0.2, 0);
    assertEquals(0, spread(byRows, Factor.DENSITY).getStandardDeviation());
  }

  /** A larger block holds more gates, rows filled better too. */
  @Test
  void areaAndFill_enterWithTheirSign() {
    LogicModel m = model(block(1), NODE, 0.2, 0);
    Deviates d = new Deviates(1);
    d.drawOnly(Factor.EDGE, new SplittableRandom(4));
    double none = m.nand2(new Deviates(1));
    assertEquals(Math.exp(0.03 * d.edge(0)), m.nand2(d) / none, 1e-9);
    Deviates e = new Deviates(1);
    e.drawOnly(Factor.UTILISATION, new SplittableRandom(4));
    assertEquals(e.z(Factor.UTILISATION) > 0, m.nand2(e) > none);
    Deviates x = new Deviates(1);
    x.drawOnly(Factor.EXTENT, new SplittableRandom(4));
    LogRange extent = Extent.shipped().logic();
    double larger = extent.at(x.z(Factor.EXTENT)) / extent.centre();
    assertEquals(larger, m.nand2(x) / none, 1e-9);
  }

  /** Variance of a two-piece normal, John 1982 (from memory): (1 - 2/pi)(b - a)^2 + a b. */
  private static double mean2(LogRange r) {
    double d = r.highSd() - r.lowSd();
    return (1 - 2 / Math.PI) * d * d + r.lowSd() * r.highSd();
  }

  /**
   * The size of a NAND2 and the height of a row are found apart, so their variances add, that of
   * the height fourfold (JCGM 100:2008, equation 10).
   */
  @Test
  void rowHeightAndNand2_errIndependently() {
    double sd = spread(model(block(1, 8), NONE, 0.2, 0), Factor.ROW).getStandardDeviation();
    assertEquals(Math.hypot(SPREAD, SPREAD), sd, 0.02 * sd);
  }

  @Test
  void rows_areNeverFilledBeyondTheirArea() {
    LogicModel m = model(block(1), NODE, 0.2, 0);
    SummaryStatistics s = spread(m, Factor.UTILISATION);
    double full = 100_000 * Extent.shipped().logic().centre();
    assertEquals(full, Math.exp(s.getMax()), 1e-6);
    assertTrue(Math.exp(s.getMin()) < 0.5 * full);
  }

  /** Without a node a block that shows no rows has those of the largest that does. */
  @Test
  void blindBlock_borrowsRowsOnlyWithoutANode() {
    LogicBlock blind = block(1);
    List<LogicBlock> all = List.of(blind, block(0.1, 10), block(0.5, 8));
    DieEvidence none = new DieEvidence(List.of(), all, 0.2, 0, NONE, true);
    Extent e = Extent.BY_HAND;
    LogicModel borrowed = LogicModel.of(blind, 0, none, table, e).orElseThrow();
    assertTrue(borrowed.rowsRead());
    assertEquals(1e6 / 8 * 0.9, borrowed.nand2(new Deviates(3)), 1e-6);
    DieEvidence noded = new DieEvidence(List.of(), all, 0.2, 0, NODE, true);
    LogicModel own = LogicModel.of(blind, 0, noded, table, e).orElseThrow();
    assertFalse(own.rowsRead());
    assertEquals(90_000, own.nand2(new Deviates(3)), 1e-6);
    DieEvidence dark = new DieEvidence(List.of(), List.of(blind), 0.2, 0, NONE, true);
    assertEquals(Optional.empty(), LogicModel.of(blind, 0, dark, table, e));
  }

  /** A period of 33 um fits no row of 3.2 to 5 um: it is of something else, the table is left. */
  @Test
  void foreignPeriod_leavesTheTable() {
    LogicModel m = model(block(1, 33), NODE, 0.2, 0);
    assertFalse(m.rowsRead());
    assertEquals(90_000, median(m), 1e-6);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "130 | 0 | area of the logic; raw density of the 130 nm node from the density table, 100"
            + " (80.0 to 125) thousand gates per mm²; its rows are not resolved; rows filled to"
            + " 0.90 (0.50 to 1.0)",
        "0 | 8 | area of the logic; row height from the period measured (8.00 µm in LOG1), most"
            + " likely 4.00 µm; rows filled to 0.90 (0.50 to 1.0)",
        "130 | 8 | area of the logic; raw density of the 130 nm node from the density table, 100"
            + " (80.0 to 125) thousand gates per mm², joined with the row height from the period"
            + " measured (8.00 µm in LOG1), most likely 4.00 µm; rows filled to 0.90 (0.50 to"
            + " 1.0)",
        "130 | 33 | area of the logic; raw density of the 130 nm node from the density table, 100"
            + " (80.0 to 125) thousand gates per mm²; its rows are not resolved; rows filled to"
            + " 0.90 (0.50 to 1.0)"
      })
  void origin_saysWhatTheEstimateRestsOn(double node, double periodUm, String words) {
    LogicBlock b = periodUm > 0 ? block(1, periodUm) : block(1);
    OptionalDouble nodeNm = node > 0 ? OptionalDouble.of(node) : NONE;
    assertEquals(words, model(b, nodeNm, 0.2, 0).origin(nodeNm));
  }
}
