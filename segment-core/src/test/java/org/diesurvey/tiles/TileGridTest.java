package org.diesurvey.tiles;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TileGridTest {
  @ParameterizedTest(name = "{0} um tiles, {1} um/px, {2} px, reduced {3} times")
  @CsvSource({
    "8, 0.5, 1000, 1",
    "8, 0.31, 1237, 1",
    "8, 0.31, 1237, 4",
    "8, 0.73, 991, 2",
    "8, 2.9, 300, 1",
    "9.7, 0.37, 805, 8",
    "8, 0.31, 3, 1",
    "8, 1.0, 801, 1",
    "8, 1.0, 803, 1"
  })
  void tileBorders_coverEveryPixelOnce(double tileUm, double pitchUm, int px, int reduction) {
    TileGrid grid = new TileGrid(tileUm, pitchUm, px, px);
    int limit = px / reduction;
    int[] covered = new int[Math.max(1, limit)];
    for (int c = 0; c < grid.columns(); c++) {
      for (int x = grid.start(c, reduction, limit); x < grid.start(c + 1, reduction, limit); x++) {
        covered[x]++;
      }
    }
    // A last strip below a quarter of a tile is too little to judge and is left out.
    int end = grid.start(grid.columns(), reduction, limit);
    for (int x = 0; x < end; x++) {
      assertEquals(1, covered[x], "pixel " + x);
    }
    assertTrue(limit - end <= 0.25 * grid.tilePx() / reduction + 1, "ends at " + end);
  }

  /** Tiles of 25.8 px: after 40 tiles whole pixels would be off by 8 px or more. */
  @Test
  void tileBorders_doNotDriftFromTheDie() {
    TileGrid grid = new TileGrid(8, 0.31, 1237, 1237);
    for (int c = 0; c <= 47; c++) {
      assertEquals(c * 8 / 0.31, grid.start(c, 1, 1237), 0.5);
    }
  }

  @Test
  void tileBelowTwoPixels_isRefused() {
    assertThrows(IllegalArgumentException.class, () -> new TileGrid(8, 4.1, 100, 100));
    assertThrows(IllegalArgumentException.class, () -> new TileGrid(Double.NaN, 1, 100, 100));
  }

  @Test
  void dieSmallerThanATile_hasOneTile() {
    assertEquals(1, new TileGrid(64, 0.3, 40, 30).count());
  }
}
