package org.diesurvey.features;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.stream.IntStream;
import org.diesurvey.features.DominantPeriods.Found;
import org.diesurvey.preparation.DrawnSource;
import org.diesurvey.preparation.PreparedDie;
import org.diesurvey.tiles.TileGrid;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The truth is the lattice that was drawn. */
class DominantPeriodsTest {
  private static final int SIDE = 260;

  private static List<Found> periods(double noise, DrawnSource.Grey grey) {
    PreparedDie die = DrawnSource.noisy(SIDE, SIDE, noise, 21, grey).wholeAsDie(false, 1);
    TileGrid grid = new TileGrid(8, 0.5, SIDE, SIDE);
    FeatureTable table = FeatureTable.extract(die, grid);
    return table.periods(IntStream.range(0, grid.count()).toArray());
  }

  private static Found along(List<Found> all, boolean x) {
    return all.stream().filter(f -> f.alongX() == x).findFirst().orElseThrow();
  }

  @ParameterizedTest(name = "{0} x {1} px, noise {2}")
  @CsvSource({
    "7.37, 11.62, 0",
    "5.24, 5.81, 0",
    "13.46, 9.13, 0",
    "30.3, 21.7, 0",
    "7.37, 11.62, 0.06",
    "13.46, 9.13, 0.12",
    "12.145, 7.893, 0.04",
    "20.37, 15.73, 0.04"
  })
  void lattice_hasItsPeriodsWithinATenthOfAPixel(double px, double py, double noise) {
    List<Found> found =
        periods(noise, (x, y) -> 0.35 + (x % px < 0.45 * px && y % py < 0.55 * py ? 0.3 : 0));
    assertEquals(2, found.size());
    assertPeriod(px, along(found, true));
    assertPeriod(py, along(found, false));
  }

  /** Longer than the finest lags reach: half a percent. */
  @Test
  void longPeriod_isFoundToHalfAPercent() {
    List<Found> found = periods(0.05, (x, y) -> x % 52.6 < 22 && y % 7.9 < 4 ? 0.65 : 0.35);
    assertEquals(52.6, along(found, true).lengthPx(), 0.005 * 52.6);
    assertPeriod(7.9, along(found, false));
  }

  private static void assertPeriod(double truth, Found found) {
    double off = Math.abs(truth - found.lengthPx());
    assertTrue(off < 0.1, truth + " px was found as " + found.lengthPx());
    assertTrue(off <= 3 * found.uncertaintyPx(), "uncertainty " + found.uncertaintyPx());
    assertTrue(found.uncertaintyPx() < 0.3, "uncertainty " + found.uncertaintyPx());
    assertTrue(found.strength() > 0.1 && found.strength() <= 1);
  }

  /** Rows of cells of random widths repeat down the page only. */
  @Test
  void rowsOfUnevenCells_arePeriodicAcrossTheRowsOnly() {
    List<Found> found =
        periods(
            0.03,
            (x, y) -> {
              long row = (long) Math.floor(y / 9.44);
              return y % 9.44 < 4 ? 0.55 + 0.08 * Cells.level(x, row) : 0.35;
            });
    assertPeriod(9.44, along(found, false));
    assertTrue(found.stream().noneMatch(f -> f.alongX()), "" + found);
  }

  @Test
  void evenNoise_hasNoPeriod() {
    assertEquals(List.of(), periods(0.08, (x, y) -> 0.5));
  }

  @Test
  void noTiles_haveNoPeriod() {
    PreparedDie die =
        DrawnSource.of(SIDE, SIDE, (x, y) -> x % 9 < 4 ? 0.6 : 0.3).wholeAsDie(false, 1);
    assertEquals(
        List.of(), FeatureTable.extract(die, new TileGrid(8, 0.5, SIDE, SIDE)).periods(new int[0]));
  }
}
