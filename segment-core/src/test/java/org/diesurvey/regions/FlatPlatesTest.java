package org.diesurvey.regions;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.features.DrawnTable;
import org.diesurvey.preparation.DrawnSource;
import org.diesurvey.tiles.FineMap;
import org.diesurvey.tiles.TileGrid;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

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
    return FlatPlates.tiles(label, fine, GRID, MacroTuning.DEFAULT);
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

  /** Cells of 2 um: a plate from one cell to another on ground of 0.4 with steps of 0.002. */
  private static FineMap cells(double step, int... boxes) {
    return DrawnTable.cells(
        GRID,
        (r, c) -> {
          double grey = GROUND + ((r + c) % 4 < 2 ? 0.001 : -0.001);
          for (int k = 0; k < boxes.length; k += 4) {
            boolean in = c >= boxes[k] && r >= boxes[k + 1] && c < boxes[k + 2] && r < boxes[k + 3];
            grey += in ? step : 0;
          }
          return grey;
        },
        (r, c) -> 0.01);
  }

  private static int[] bare() {
    int[] label = new int[GRID.count()];
    Arrays.fill(label, SurfaceClass.BARE.ordinal());
    return label;
  }

  /**
   * A plate is at least 24 um wide and 1500 um2 large, not at the border, and stands out by five
   * steps of the ground.
   */
  @ParameterizedTest(name = "{0} x {1} cells at {2}, {3}, step {4}")
  @CsvSource({
    "40, 40, 100, 100, 0.05, true",
    "40, 40, 100, 100, 0.008, false",
    "40, 40, 100, 100, -0.05, true",
    "10, 60, 100, 100, 0.05, false",
    "16, 60, 100, 100, 0.05, true",
    "60, 16, 100, 100, 0.05, true",
    "18, 18, 100, 100, 0.05, false",
    "24, 24, 100, 100, 0.05, true",
    "40, 40, 0, 100, 0.05, false",
    "40, 40, 100, 0, 0.05, false",
    "40, 40, 260, 100, 0.05, false",
    "40, 40, 100, 260, 0.05, false",
    "170, 170, 60, 60, 0.05, false"
  })
  void plate_isKnownBySizePlaceAndTone(
      int width, int height, int x, int y, double step, boolean found) {
    boolean[] tiles =
        FlatPlates.tiles(
            bare(), cells(step, x, y, x + width, y + height), GRID, MacroTuning.DEFAULT);
    if (!found) {
      assertEquals(0, count(tiles));
      return;
    }
    for (int t = 0; t < tiles.length; t++) {
      int cx = t % GRID.columns() * 4;
      int cy = t / GRID.columns() * 4;
      boolean within = cx >= x + 4 && cy >= y + 4 && cx + 8 <= x + width && cy + 8 <= y + height;
      boolean outside = cx + 4 <= x || cy + 4 <= y || cx >= x + width || cy >= y + height;
      assertTrue(!within || tiles[t], "tile " + t + " is in it");
      assertTrue(!outside || !tiles[t], "tile " + t + " is not");
    }
  }

  /** Three of one size are plates, four are bond pads. */
  @Test
  void upToThreeOfOneSize_arePlates() {
    int[] boxes = {40, 40, 70, 70, 140, 40, 170, 70, 40, 140, 70, 170, 140, 140, 170, 170};
    assertTrue(
        count(
                FlatPlates.tiles(
                    bare(), cells(0.05, Arrays.copyOf(boxes, 12)), GRID, MacroTuning.DEFAULT))
            > 100);
    assertEquals(0, count(FlatPlates.tiles(bare(), cells(0.05, boxes), GRID, MacroTuning.DEFAULT)));
    // One of them a fifth wider is of another size.
    boxes[14] = 178;
    assertTrue(
        count(FlatPlates.tiles(bare(), cells(0.05, boxes), GRID, MacroTuning.DEFAULT)) > 150);
  }

  /** What the tiles call something else than bare is no plate, nor is what lies in it. */
  @Test
  void plate_isOnBareGround() {
    FineMap fine = cells(0.05, 100, 100, 140, 140);
    int[] label = bare();
    for (int t = 0; t < label.length; t++) {
      int x = t % GRID.columns();
      int y = t / GRID.columns();
      label[t] = x >= 25 && x < 31 && y >= 25 && y < 35 ? SurfaceClass.MACRO.ordinal() : label[t];
    }
    assertEquals(0, count(FlatPlates.tiles(label, fine, GRID, MacroTuning.DEFAULT)));
    int[] cut = bare();
    cut[30 * GRID.columns() + 30] = CoreLabelling.OUTSIDE;
    boolean[] tiles = FlatPlates.tiles(cut, fine, GRID, MacroTuning.DEFAULT);
    assertTrue(count(tiles) >= 64);
    assertFalse(tiles[30 * GRID.columns() + 30]);
    assertEquals(
        0,
        count(FlatPlates.tiles(new int[GRID.count()], fine, GRID, MacroTuning.DEFAULT)),
        "nothing is bare");
  }

  /** The step of 0.05 is 25 steps of the ground. */
  @Test
  void leastStepOfTone_isThatOfTheTuning() {
    FineMap plate = cells(0.05, 80, 80, 140, 140);
    assertTrue(count(FlatPlates.tiles(bare(), plate, GRID, MacroTuning.DEFAULT)) > 100);
    MacroTuning steep = new MacroTuning(380, 36, 100);
    assertEquals(0, count(FlatPlates.tiles(bare(), plate, GRID, steep)));
  }
}
