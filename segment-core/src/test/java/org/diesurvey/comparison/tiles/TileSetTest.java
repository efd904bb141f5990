package org.diesurvey.comparison.tiles;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class TileSetTest {
  private static final int COLUMNS = 23;
  private static final int ROWS = 17;

  private static boolean[] some(double share) {
    SplittableRandom random = new SplittableRandom(5);
    boolean[] out = new boolean[COLUMNS * ROWS];
    for (int i = 0; i < out.length; i++) {
      out[i] = random.nextDouble() < share;
    }
    return out;
  }

  /**
   * By the definition: set if any (all) tiles of the square around are; beyond the grid none is.
   */
  private static boolean[] byDefinition(boolean[] in, int by) {
    boolean[] out = new boolean[in.length];
    int reach = Math.abs(by);
    for (int i = 0; i < in.length; i++) {
      boolean any = false;
      boolean all = true;
      for (int y = i / COLUMNS - reach; y <= i / COLUMNS + reach; y++) {
        for (int x = i % COLUMNS - reach; x <= i % COLUMNS + reach; x++) {
          if (x >= 0 && y >= 0 && x < COLUMNS && y < ROWS) {
            any |= in[y * COLUMNS + x];
            all &= in[y * COLUMNS + x];
          }
        }
      }
      out[i] = by > 0 ? any : all;
    }
    return out;
  }

  @Test
  void growing_shrinking_openingAndClosing_areThoseOfTheDefinition() {
    boolean[] thin = some(0.08);
    boolean[] dense = some(0.93);
    assertArrayEquals(byDefinition(thin, 2), TileSet.grown(thin, COLUMNS, 2));
    assertArrayEquals(byDefinition(dense, -1), TileSet.shrunk(dense, COLUMNS, 1));
    assertArrayEquals(byDefinition(byDefinition(thin, 1), -1), TileSet.closed(thin, COLUMNS, 1));
    assertArrayEquals(byDefinition(byDefinition(dense, -1), 1), TileSet.opened(dense, COLUMNS, 1));
  }

  @Test
  void parts_hangTogetherByCorners_largestFirst() {
    boolean[] in = new boolean[COLUMNS * ROWS];
    in[0] = true;
    in[COLUMNS + 1] = true;
    in[5] = true;
    assertEquals(2, TileSet.parts(in, COLUMNS).size());
    assertEquals(2, TileSet.parts(in, COLUMNS).get(0).count());
  }

  @Test
  void within_isTheLargestPartOfAMaskThatMeetsTheSet_elseTheSet() {
    boolean[] mask = new boolean[COLUMNS * ROWS];
    mask[0] = true;
    mask[1] = true;
    mask[5] = true;
    mask[6] = true;
    mask[7] = true;
    boolean[] one = new boolean[mask.length];
    one[1] = true;
    assertEquals(2, new TileSet(COLUMNS, one).within(mask).count());
    one[7] = true;
    assertEquals(3, new TileSet(COLUMNS, one).within(mask).count());
    TileSet apart = new TileSet(COLUMNS, new boolean[mask.length]);
    assertEquals(apart, apart.within(mask));
  }
}
