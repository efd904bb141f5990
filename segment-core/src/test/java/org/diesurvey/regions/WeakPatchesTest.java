package org.diesurvey.regions;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.tiles.TileGrid;
import org.junit.jupiter.api.Test;

/** Bare ground of 40 by 40 tiles of 8 um with one patch on it. */
class WeakPatchesTest {
  private static final TileGrid GRID = new TileGrid(8, 1, 320, 320);

  private final int[] label = new int[GRID.count()];
  private final float[] p = new float[GRID.count() * SurfaceClass.COUNT];
  private PatchTuning tuning = PatchTuning.DEFAULT;

  /** Label of the middle of a patch after settling. */
  private SurfaceClass settled(SurfaceClass of, int columns, int rows, double probability) {
    return settled(of, columns, rows, probability, SurfaceClass.BARE);
  }

  private SurfaceClass settled(
      SurfaceClass of, int columns, int rows, double probability, SurfaceClass ground) {
    Arrays.fill(label, ground.ordinal());
    for (int t = 0; t < label.length; t++) {
      for (SurfaceClass c : SurfaceClass.values()) {
        p[t * SurfaceClass.COUNT + c.ordinal()] = c == ground ? 1 : 0;
      }
    }
    for (int r = 10; r < 10 + rows; r++) {
      for (int c = 10; c < 10 + columns; c++) {
        int t = r * GRID.columns() + c;
        label[t] = of.ordinal();
        p[t * SurfaceClass.COUNT + of.ordinal()] = (float) probability;
        p[t * SurfaceClass.COUNT + ground.ordinal()] = (float) (1 - probability);
      }
    }
    WeakPatches.settle(
        label, new TileProbabilities(GRID, p.clone(), new float[GRID.count()]), tuning);
    return SurfaceClass.values()[label[(10 + rows / 2) * GRID.columns() + 10 + columns / 2]];
  }

  @Test
  void aDustGrain_isNoMacro() {
    assertEquals(SurfaceClass.BARE, settled(SurfaceClass.MACRO, 3, 3, 0.6));
  }

  @Test
  void aSmallMacroThatIsSureOfItself_stays() {
    assertEquals(SurfaceClass.MACRO, settled(SurfaceClass.MACRO, 3, 3, 0.9));
  }

  @Test
  void aScratchOnBareGround_isNoRowsHoweverSure() {
    assertEquals(SurfaceClass.BARE, settled(SurfaceClass.CELL_ROWS, 25, 2, 0.95));
  }

  /** 40 um wide and sure: no scratch. */
  @Test
  void aPieceOfFewRowsOnBareGround_stays() {
    assertEquals(SurfaceClass.CELL_ROWS, settled(SurfaceClass.CELL_ROWS, 25, 5, 0.95));
  }

  @Test
  void aStreetOfRowsBetweenMemories_stays() {
    assertEquals(
        SurfaceClass.CELL_ROWS,
        settled(SurfaceClass.CELL_ROWS, 25, 2, 0.95, SurfaceClass.BIT_CELLS));
  }

  @Test
  void aBlockOfRows_stays() {
    assertEquals(SurfaceClass.CELL_ROWS, settled(SurfaceClass.CELL_ROWS, 12, 12, 0.6));
  }

  @Test
  void aSpeckOfMemoryInLogic_isLogic() {
    assertEquals(
        SurfaceClass.CELL_ROWS,
        settled(SurfaceClass.BIT_CELLS, 6, 6, 0.55, SurfaceClass.CELL_ROWS));
  }

  @Test
  void aLargeMemory_staysThoughItIsWeak() {
    assertEquals(SurfaceClass.BIT_CELLS, settled(SurfaceClass.BIT_CELLS, 14, 14, 0.55));
  }

  /** 125 tiles are 8000 um2; a mean probability of three quarters is sure. */
  @Test
  void patchesAtTheBorder_stay() {
    assertEquals(SurfaceClass.BIT_CELLS, settled(SurfaceClass.BIT_CELLS, 25, 5, 0.55));
    assertEquals(SurfaceClass.BARE, settled(SurfaceClass.BIT_CELLS, 24, 5, 0.45));
    assertEquals(SurfaceClass.BIT_CELLS, settled(SurfaceClass.BIT_CELLS, 6, 6, 0.75));
    assertEquals(SurfaceClass.MACRO, settled(SurfaceClass.MACRO, 3, 3, 0.75));
  }

  /** What is a scratch, and what is sure, is the tuning's. */
  @Test
  void widthOfAScratch_andSureness_areThoseOfTheTuning() {
    tuning = new PatchTuning(0.75, 48, 7, 0.25);
    assertEquals(SurfaceClass.BARE, settled(SurfaceClass.CELL_ROWS, 25, 5, 0.95));
    assertEquals(SurfaceClass.BARE, settled(SurfaceClass.MACRO, 3, 3, 0.6));
    tuning = new PatchTuning(0.55, 24, 7, 0.25);
    assertEquals(SurfaceClass.MACRO, settled(SurfaceClass.MACRO, 3, 3, 0.6));
  }
}
