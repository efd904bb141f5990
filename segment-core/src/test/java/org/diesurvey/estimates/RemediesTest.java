package org.diesurvey.estimates;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The figures in the sentences: what it is now, what it would be, and for which photograph. */
class RemediesTest {
  private static final Remedies FOUND = new Remedies(false, false, false, 1, 0.2, 0.3, 0.05);
  private static final Remedies KNOWN = new Remedies(true, true, true, 0, 0.2, 0.3, 0.05);

  private static void assertSays(Remedies r, Factor f, double relative, String words) {
    String said = r.sentence(f, relative);
    assertTrue(said.contains(words), said);
  }

  /** A stage micrometer gives the pitch to 0.15 %, areas to 0.3 %; not worth it below 0.45 %. */
  @ParameterizedTest
  @CsvSource({"0.04, from 4.0 % to 0.3 %.", "0.0046, from 0.5 % to 0.3 %.", "0.0044, Nothing is"})
  void scale_isWorthAMicrometerOnlyWhereItHelps(double relative, String words) {
    assertSays(FOUND, Factor.SCALE, relative, words);
  }

  @Test
  void percentages_haveOneDecimalBelowTen() {
    assertSays(FOUND, Factor.EXTENT, 0.0994, "these 9.9 % away");
    assertSays(FOUND, Factor.EXTENT, 0.1, "these 10 % away");
  }

  /** Four samples along the side of a cell of 1 um2. */
  @Test
  void cell_namesThePhotographThatResolvesIt_ifTheCellIsKnown() {
    assertSays(FOUND, Factor.CELL, 0.2, "about 0.25 µm per px");
    assertSays(FOUND, Factor.CELL, 0.2, "from 20 % to about 3.0 %");
    assertFalse(KNOWN.sentence(Factor.CELL, 0.2).contains("per px"));
    assertTrue(FOUND.sentence(Factor.CELL_KIND, 0.2).startsWith("Stating the ports"));
    assertTrue(FOUND.sentence(Factor.CELL, 0.2).startsWith("A photograph"));
  }

  @Test
  void whatIsAlreadyDone_isNotAdvised() {
    assertSays(FOUND, Factor.EDGE, 0.1, "command measure");
    assertSays(KNOWN, Factor.EDGE, 0.1, "on a finer photograph");
    assertSays(FOUND, Factor.EFFICIENCY, 0.31, "from 30 % to about 5.0 %");
    assertSays(KNOWN, Factor.EFFICIENCY, 0.06, "Counting the rows and columns");
    assertSays(FOUND, Factor.DENSITY, 0.25, "from 25 % to about 20 %");
    assertSays(KNOWN, Factor.DENSITY, 0.25, "size of the process's NAND2");
  }
}
