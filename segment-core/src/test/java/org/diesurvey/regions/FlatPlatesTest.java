package org.diesurvey.regions;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.features.DrawnTable;
import org.diesurvey.features.FineMap;
import org.diesurvey.preparation.DrawnSource;
import org.diesurvey.tiles.TileGrid;
import org.junit.jupiter.api.Test;

/** Noisy bare ground of 600 by 600 um at 1 um/px, 8 um tiles, all called bare. */
class FlatPlatesTest {
  private static final int SIDE = 600;
  private static final TileGrid GRID = new TileGrid(8, 1, SIDE, SIDE);
  private static final double GROUND = 0.4;

  private static boolean[] plates(String name, DrawnSource.Grey grey) {
    FineMap fine =
        DrawnTable.kept(
            name, () -> DrawnTable.fine(DrawnSource.noisy(SIDE, SIDE, 0.01, 41, grey), GRID));
    int[] label = new int[GRID.count()];
    Arrays.fill(label, SurfaceClass.BARE.ordinal());
    return FlatPlates.tiles(label, fine, GRID);
  }

  private static boolean within(double x, double y, double x0, double y0, double w, double h) {
    return x >= x0 && y >= y0 && x < x0 + w && y < y0 + h;
  }

  private static int count(boolean[] tiles) {
    int n = 0;
    for (boolean t : tiles) {
      n += t ? 1 : 0;
    }
    return n;
  }

  @Test
  void aPlateOfAnotherTone_isFoundWhereItLies() {
    boolean[] plates =
        plates("plate", (x, y) -> within(x, y, 200, 240, 160, 120) ? GROUND + 0.06 : GROUND);
    assertEquals(160 * 120 / 64, count(plates), 40);
    assertTrue(plates[300 / 8 * GRID.columns() + 280 / 8]);
    assertFalse(plates[100 / 8 * GRID.columns() + 100 / 8]);
  }

  @Test
  void aFrameAroundGroundOfTheSameTone_isNoPlate() {
    assertEquals(
        0,
        count(
            plates(
                "frame",
                (x, y) ->
                    within(x, y, 200, 240, 160, 120) && !within(x, y, 206, 246, 148, 108)
                        ? GROUND + 0.1
                        : GROUND)));
  }

  @Test
  void aBlockWithAPattern_isNoPlate() {
    assertEquals(
        0,
        count(
            plates(
                "block with a pattern",
                (x, y) ->
                    within(x, y, 200, 240, 160, 120) ? GROUND + (y % 8 < 4 ? 0.12 : 0) : GROUND)));
  }

  @Test
  void aRoundStain_isNoPlate() {
    assertEquals(
        0,
        count(
            plates(
                "round stain",
                (x, y) -> Math.hypot(x - 300, y - 300) < 80 ? GROUND + 0.06 : GROUND)));
  }

  @Test
  void manyOfOneSize_areBondPads() {
    assertEquals(
        0,
        count(
            plates(
                "many plates",
                (x, y) -> within(x % 120, y, 30, 60, 60, 60) ? GROUND + 0.06 : GROUND)));
  }
}
