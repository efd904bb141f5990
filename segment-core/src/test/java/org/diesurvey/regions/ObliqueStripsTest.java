package org.diesurvey.regions;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.tiles.TileGrid;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** 100 by 100 tiles of 8 um. */
class ObliqueStripsTest {
  private static final TileGrid GRID = new TileGrid(8, 1, 800, 800);
  private static final int ROWS = SurfaceClass.CELL_ROWS.ordinal();
  private static final int MACRO = SurfaceClass.MACRO.ordinal();

  private final int[] label = new int[GRID.count()];

  private void ground(SurfaceClass c) {
    Arrays.fill(label, c.ordinal());
  }

  /** A strip through the middle of the picture. */
  private void strip(double angleDeg, double length, double width) {
    double c = Math.cos(Math.toRadians(angleDeg));
    double s = Math.sin(Math.toRadians(angleDeg));
    for (int t = 0; t < label.length; t++) {
      double x = t % GRID.columns() - 50;
      double y = t / GRID.columns() - 50;
      if (Math.abs(x * c + y * s) <= length / 2 && Math.abs(-x * s + y * c) <= width / 2) {
        label[t] = ROWS;
      }
    }
  }

  private void block(int x0, int y0, int x1, int y1) {
    for (int y = y0; y < y1; y++) {
      Arrays.fill(label, y * GRID.columns() + x0, y * GRID.columns() + x1, MACRO);
    }
  }

  private long count(int code) {
    return Arrays.stream(label).filter(l -> l == code).count();
  }

  @Test
  void aScratchOnBareGround_isBare() {
    ground(SurfaceClass.BARE);
    strip(72, 60, 8);
    ObliqueStrips.clear(label, GRID, PatchTuning.DEFAULT);
    assertEquals(0, count(ROWS));
  }

  @Test
  void rowsAlongTheAxes_stay() {
    ground(SurfaceClass.BARE);
    strip(90, 60, 8);
    int[] before = label.clone();
    ObliqueStrips.clear(label, GRID, PatchTuning.DEFAULT);
    assertTrue(Arrays.equals(before, label));
  }

  @Test
  void aScratchThatEndsAtABlock_leavesTheBlockAlone() {
    ground(SurfaceClass.BARE);
    strip(72, 90, 8);
    block(40, 0, 90, 22);
    long before = count(MACRO);
    ObliqueStrips.clear(label, GRID, PatchTuning.DEFAULT);
    assertEquals(before, count(MACRO));
    long left = IntStream.range(35 * 100, label.length).filter(t -> label[t] == ROWS).count();
    assertEquals(0, left, "rows left well away from the block");
  }

  /** Only what lies on bare ground is told so: here the strip lies on what is no core. */
  @Test
  void anObliqueStripOffBareGround_stays() {
    Arrays.fill(label, CoreLabelling.OUTSIDE);
    strip(72, 60, 8);
    long before = count(ROWS);
    ObliqueStrips.clear(label, GRID, PatchTuning.DEFAULT);
    assertEquals(before, count(ROWS));
  }

  @Test
  void smallBlocksOnADiagonal_stay() {
    ground(SurfaceClass.BARE);
    for (int i = 10; i < 80; i += 14) {
      block(i, i, i + 9, i + 9);
    }
    long before = count(MACRO);
    ObliqueStrips.clear(label, GRID, PatchTuning.DEFAULT);
    assertEquals(before, count(MACRO));
  }

  /** On bare ground by itself: too near an axis, too stout, too small, or a strip. */
  @ParameterizedTest(name = "{0} degrees, {1} by {2} tiles")
  @CsvSource({
    "5, 70, 6, false",
    "10, 70, 6, true",
    "85, 70, 6, false",
    "80, 70, 6, true",
    "45, 12, 9, false",
    "45, 44, 9, true",
    "30, 11, 2.8, false",
    "30, 22, 2.8, true"
  })
  void patch_isAStripByAngleLengthAndSize(
      double angleDeg, double length, double width, boolean cleared) {
    ground(SurfaceClass.BARE);
    strip(angleDeg, length, width);
    long before = count(ROWS);
    ObliqueStrips.clear(label, GRID, PatchTuning.DEFAULT);
    assertEquals(cleared ? 0 : before, count(ROWS));
  }

  /** Two that cross are no strip as a whole; away from the crossing each is told by its tiles. */
  @Test
  void crossingScratches_goButForTheirCrossing() {
    ground(SurfaceClass.BARE);
    strip(30, 90, 6);
    strip(120, 90, 6);
    int[] before = label.clone();
    ObliqueStrips.clear(label, GRID, PatchTuning.DEFAULT);
    for (int t = 0; t < label.length; t++) {
      double away = Math.hypot(t % GRID.columns() - 50, t / GRID.columns() - 50);
      assertTrue(away < 15 || label[t] == SurfaceClass.BARE.ordinal(), "tile " + t);
      assertTrue(away > 4 || label[t] == before[t], "tile " + t);
    }
  }

  /** Bare ground on one side alone is not enough: a strip along a block belongs to it. */
  @Test
  void stripAlongABlock_stays() {
    ground(SurfaceClass.BARE);
    strip(45, 60, 6);
    for (int t = 0; t < label.length; t++) {
      boolean beyond = t / GRID.columns() - t % GRID.columns() > 4;
      label[t] = beyond && label[t] != ROWS ? MACRO : label[t];
    }
    long before = count(ROWS);
    ObliqueStrips.clear(label, GRID, PatchTuning.DEFAULT);
    assertEquals(before, count(ROWS));
  }

  /** A strip of 8 tiles is too wide for one where strips have 7 at most. */
  @Test
  void widestStrip_isThatOfTheTuning() {
    ground(SurfaceClass.BARE);
    strip(72, 60, 8);
    long before = count(ROWS);
    ObliqueStrips.clear(label, GRID, new PatchTuning(0.75, 24, 3, 0.25));
    assertTrue(count(ROWS) > before / 2, count(ROWS) + " of " + before + " left");
  }
}
