package org.diesurvey.comparison.changes;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.diesurvey.comparison.registration.OfBoth;
import org.diesurvey.comparison.tiles.TileSet;
import org.junit.jupiter.api.Test;

class MovedGroundTest {
  private static final int COLUMNS = 40;
  private static final int ROWS = 16;

  private static TileSet box(int left, int right) {
    boolean[] mask = new boolean[COLUMNS * ROWS];
    for (int y = 3; y < 13; y++) {
      Arrays.fill(mask, y * COLUMNS + left, y * COLUMNS + right, true);
    }
    return new TileSet(COLUMNS, mask);
  }

  private static float[] block(int left, int right) {
    float[] out = new float[COLUMNS * ROWS];
    Arrays.fill(out, -4);
    for (int i = 0; i < out.length; i++) {
      out[i] = box(left, right).mask()[i] ? 4 : out[i];
    }
    return out;
  }

  private static boolean leaves(TileSet a, TileSet b, float[] blockA, float[] blockB) {
    return MovedGround.leaves(a, b, new OfBoth<>(blockA, blockB), COLUMNS);
  }

  @Test
  void blockThatMovedByLessThanItsWidth_leavesAndTakesGround() {
    assertTrue(leaves(box(4, 20), box(10, 26), block(4, 20), block(10, 26)));
  }

  @Test
  void neighboursThatWindowsWiden_doNotHideAShortMove() {
    // Of 5 x 10 tiles left free between neighbours, windows show 3 x 8 as free: less than half.
    assertTrue(leaves(box(4, 20), box(9, 25), allBut(20, 25), allBut(4, 9)));
    assertFalse(leaves(box(4, 20), box(9, 25), allBut(20, 25), allBut(30, 35)));
    assertFalse(leaves(box(4, 20), box(9, 25), allBut(30, 35), allBut(4, 9)));
  }

  /** Blocks everywhere but in a gap, into which windows widen them by a tile. */
  private static float[] allBut(int left, int right) {
    float[] out = new float[COLUMNS * ROWS];
    boolean[] free = TileSet.shrunk(box(left, right).mask(), COLUMNS, 1);
    for (int i = 0; i < out.length; i++) {
      out[i] = free[i] ? -4 : 4;
    }
    return out;
  }

  @Test
  void latticeOfABlockThatGrewOrShrank_hasNotMoved() {
    assertFalse(leaves(box(4, 20), box(10, 26), block(4, 20), block(4, 26)));
    assertFalse(leaves(box(4, 20), box(10, 26), block(4, 26), block(10, 26)));
  }

  @Test
  void blockAtItsOldPlace_hasNotMoved() {
    assertFalse(leaves(box(4, 20), box(4, 20), block(4, 20), block(4, 20)));
  }

  @Test
  void cellsAlongTheRing_neverMove_andWhatLeftItMustBeSure() {
    assertTrue(MovedGround.ofRing(true, true, 1));
    assertTrue(MovedGround.ofRing(true, false, 0.8));
    assertTrue(MovedGround.ofRing(false, true, 0.8));
    assertFalse(MovedGround.ofRing(true, false, 0.9));
    assertFalse(MovedGround.ofRing(false, false, 0.5));
  }
}
