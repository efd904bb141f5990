package org.diesurvey.classification.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashSet;
import java.util.Set;
import java.util.function.IntBinaryOperator;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.features.DrawnTable;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.tiles.TileGrid;
import org.junit.jupiter.api.Test;

class TileBlocksTest {
  private static final int COLUMNS = 30;
  private static final int ROWS = 20;
  private static final TileGrid GRID = new TileGrid(8, 1, 8 * COLUMNS, 8 * ROWS);

  /** Evidence of 0.7 for the class that a tile shows. */
  static TileProbabilities evidence(TileGrid grid, IntBinaryOperator classAt) {
    float[] values = new float[grid.count() * SurfaceClass.COUNT];
    for (int t = 0; t < grid.count(); t++) {
      int shown = classAt.applyAsInt(t / grid.columns(), t % grid.columns());
      for (int k = 0; k < SurfaceClass.COUNT; k++) {
        values[t * SurfaceClass.COUNT + k] = k == shown ? 0.7f : 0.3f / (SurfaceClass.COUNT - 1);
      }
    }
    return new TileProbabilities(grid, values, new float[grid.count()]);
  }

  /** Tiles of one contrast. */
  private static final FeatureTable EVEN = DrawnTable.ofContrast(GRID, new float[GRID.count()]);

  private static int at(TileBlocks blocks, int row, int column) {
    return blocks.of(row * COLUMNS + column);
  }

  @Test
  void partsThatTouchByNoSide_areBlocksOfTheirOwn_andCrumbsAreNot() {
    // Two rectangles of one class in another, and a single odd tile.
    TileBlocks blocks =
        TileBlocks.of(
            evidence(
                GRID,
                (r, c) ->
                    r >= 4 && r < 14 && (c >= 3 && c < 11 || c >= 18 && c < 27)
                        ? 1
                        : r == 17 && c == 14 ? 3 : 2),
            EVEN);
    assertEquals(3, blocks.count());
    assertEquals(at(blocks, 0, 0), at(blocks, 17, 14));
    assertEquals(at(blocks, 6, 5), at(blocks, 12, 9));
    assertNotEquals(at(blocks, 6, 5), at(blocks, 6, 20));
    assertNotEquals(at(blocks, 6, 5), at(blocks, 0, 0));
  }

  /** A part of fewer than twelve tiles that survives the mean of squares joins its neighbour. */
  @Test
  void aSmallPart_joinsWhatSurroundsIt() {
    TileBlocks blocks =
        TileBlocks.of(evidence(GRID, (r, c) -> r >= 8 && r < 11 && c >= 8 && c < 11 ? 0 : 5), EVEN);
    assertEquals(1, blocks.count());
    // In a corner of the picture six tiles of nine stay after the mean, fewer than a block needs.
    assertEquals(1, TileBlocks.of(evidence(GRID, (r, c) -> r < 3 && c < 3 ? 0 : 5), EVEN).count());
    assertEquals(2, TileBlocks.of(evidence(GRID, (r, c) -> r < 5 && c < 5 ? 0 : 5), EVEN).count());
  }

  /** Every tile has a block, numbers have no gaps, and every block hangs together. */
  @Test
  void anyEvidence_isDividedWhole() {
    java.util.SplittableRandom random = new java.util.SplittableRandom(3);
    int[] shown = new int[GRID.count()];
    for (int t = 0; t < shown.length; t++) {
      shown[t] = random.nextInt(3) == 0 ? random.nextInt(6) : (t % COLUMNS) / 10;
    }
    TileBlocks blocks = TileBlocks.of(evidence(GRID, (r, c) -> shown[r * COLUMNS + c]), EVEN);
    Set<Integer> numbers = new HashSet<>();
    for (int t = 0; t < GRID.count(); t++) {
      numbers.add(blocks.of(t));
      int own = blocks.of(t);
      boolean alone =
          (t < COLUMNS || blocks.of(t - COLUMNS) != own)
              && (t + COLUMNS >= GRID.count() || blocks.of(t + COLUMNS) != own)
              && (t % COLUMNS == 0 || blocks.of(t - 1) != own)
              && (t % COLUMNS == COLUMNS - 1 || blocks.of(t + 1) != own);
      assertTrue(!alone, "tile " + t + " stands alone");
    }
    assertEquals(blocks.count(), numbers.size());
    assertTrue(numbers.stream().allMatch(n -> n >= 0 && n < blocks.count()));
  }

  /** What tiles took for ground stands out by its contrast; a faint scratch does not. */
  @Test
  void bareGroundThatShowsSomething_isABlockOfItsOwn() {
    float[] contrast = new float[GRID.count()];
    for (int t = 0; t < contrast.length; t++) {
      int r = t / COLUMNS;
      int c = t % COLUMNS;
      boolean device = r >= 5 && r < 12 && c >= 4 && c < 12;
      contrast[t] = device ? 0.05f : r == 17 ? 0.02f : 0.01f;
    }
    TileBlocks blocks =
        TileBlocks.of(
            evidence(GRID, (r, c) -> SurfaceClass.BARE.ordinal()),
            DrawnTable.ofContrast(GRID, contrast));
    assertEquals(2, blocks.count());
    assertNotEquals(at(blocks, 0, 0), at(blocks, 8, 8));
    assertEquals(at(blocks, 0, 0), at(blocks, 17, 20));
    // Where the tiles say something else than ground, contrast divides nothing.
    assertEquals(
        1,
        TileBlocks.of(evidence(GRID, (r, c) -> 2), DrawnTable.ofContrast(GRID, contrast)).count());
  }
}
