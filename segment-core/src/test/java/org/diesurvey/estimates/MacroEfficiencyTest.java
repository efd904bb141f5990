package org.diesurvey.estimates;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.util.ArrayList;
import java.util.List;
import org.diesurvey.SharedData;
import org.diesurvey.estimates.MacroEfficiency.Macro;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class MacroEfficiencyTest {
  private static final List<Macro> MACROS = MacroEfficiency.published();

  @Test
  void shippedMacros_areThoseOfTheOutsideCollection() throws IOException {
    List<List<String>> rows =
        CsvRows.of(Files.readString(SharedData.require("reference/macros.csv")));
    List<List<String>> withCell =
        rows.subList(1, rows.size()).stream().filter(r -> !r.get(12).isEmpty()).toList();
    assertEquals(withCell.size(), MACROS.size());
    for (int i = 0; i < withCell.size(); i++) {
      List<String> r = withCell.get(i);
      Macro m = MACROS.get(i);
      assertEquals(r.get(0), m.name());
      assertEquals(Double.parseDouble(r.get(5)), m.bits());
      assertEquals(Double.parseDouble(r.get(8)), m.areaUm2());
      double efficiency = m.bits() * m.cellUm2() / m.areaUm2();
      assertEquals(Double.parseDouble(r.get(12)), efficiency, 6e-5, m.name());
    }
  }

  @Test
  void fit_isReproducible() {
    MacroEfficiency fit = MacroEfficiency.fit(MACROS);
    // Computed a second time outside this program, from the same 35 rows.
    assertEquals(153.21, fit.k(0), 0.01);
    assertEquals(0.61722, fit.logSd(), 1e-5);
    assertEquals(fit, MacroEfficiency.shipped());
  }

  /** MEM-1 to MEM-10 of the outside collection, with k from the macro itself: the arithmetic. */
  @Test
  void macroWithItsOwnK_givesItsBits() {
    for (Macro m : MACROS) {
      assertEquals(
          m.bits(), MacroEfficiency.bits(m.areaUm2() / m.cellUm2(), m.k()), 1e-6 * m.bits());
    }
  }

  /** MEM-11: efficiencies that an independent public report gives for two of the macros, %. */
  @ParameterizedTest(name = "{0}")
  @CsvSource({"RM_IHPSG13_1P_64x64_c2_bm_bist, 24.39", "RM_IHPSG13_1P_8192x32_c4, 83.86"})
  void reportedEfficiency_isThatOfTheMacro(String name, double percent) {
    Macro m = MACROS.stream().filter(c -> c.name().equals(name)).findFirst().orElseThrow();
    assertEquals(percent, 100 * m.bits() * m.cellUm2() / m.areaUm2(), 0.01);
  }

  /** Every family is predicted by the model fitted on the others. */
  @Test
  void leavingOneFamilyOut_theIntervalHoldsAtLeastNineOfTen() {
    int inside = 0;
    for (String family : MACROS.stream().map(Macro::family).distinct().toList()) {
      MacroEfficiency others =
          MacroEfficiency.fit(MACROS.stream().filter(m -> !m.family().equals(family)).toList());
      for (Macro m : MACROS) {
        double cells = m.areaUm2() / m.cellUm2();
        double low = MacroEfficiency.bits(cells, others.k(LogRange.Z95));
        double high = MacroEfficiency.bits(cells, others.k(-LogRange.Z95));
        if (m.family().equals(family) && low <= m.bits() && m.bits() <= high) {
          inside++;
        }
      }
    }
    assertTrue(MACROS.size() >= 10);
    assertTrue(inside >= 0.9 * MACROS.size(), inside + " of " + MACROS.size());
  }

  /** A common k does not explain a family by chance: the spread within families is far smaller. */
  @Test
  void withinAFamily_kScattersLessThanAcross() {
    List<Macro> two = new ArrayList<>();
    MACROS.stream().filter(m -> m.family().startsWith("foundry")).forEach(two::add);
    assertTrue(MacroEfficiency.fit(two).logSd() < 0.5 * MacroEfficiency.shipped().logSd());
  }
}
