package org.diesurvey.comparison.changes;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.diesurvey.comparison.TestAgreement;
import org.diesurvey.comparison.registration.OfBoth;
import org.diesurvey.comparison.tiles.TileComparison;
import org.diesurvey.comparison.tiles.TileSet;
import org.junit.jupiter.api.Test;

/** A block of 20 by 20 tiles that lost its right half; both pictures show the same even texture. */
class BlockEndsTest {
  private static final int COLUMNS = TestAgreement.COLUMNS;
  private static final TileSet LOST = box(30, 20, 10, 20);

  private final TileComparison agreement =
      TestAgreement.of(TestAgreement.texture(7), TestAgreement.texture(7));
  private final float[] before = odds(box(20, 20, 20, 20));
  private final float[] after = odds(box(20, 20, 10, 20));

  private static TileSet box(int left, int top, int w, int h) {
    boolean[] mask = new boolean[COLUMNS * COLUMNS];
    for (int y = top; y < top + h; y++) {
      Arrays.fill(mask, y * COLUMNS + left, y * COLUMNS + left + w, true);
    }
    return new TileSet(COLUMNS, mask);
  }

  private static float[] odds(TileSet block) {
    float[] out = new float[COLUMNS * COLUMNS];
    for (int i = 0; i < out.length; i++) {
      out[i] = block.mask()[i] ? 4 : -4;
    }
    return out;
  }

  @Test
  void halfOfABlock_goesOnInTheOther() {
    BlockEnds ends = new BlockEnds(agreement, new OfBoth<>(before, after));
    assertTrue(ends.continues(LOST, true));
    BlockEnds.Beside beside = ends.beside(LOST, true);
    assertEquals(1, beside.goesOn());
    assertTrue(beside.ends(), "above and below is no block");
    assertTrue(beside.seam() < 1, "only corners of the border lie outside: " + beside.seam());
  }

  @Test
  void blockBesideAnother_isAPieceOfNone() {
    for (int y = 20; y < 40; y++) {
      Arrays.fill(before, y * COLUMNS + 29, y * COLUMNS + 31, -4);
    }
    BlockEnds ends = new BlockEnds(agreement, new OfBoth<>(before, after));
    assertTrue(ends.beside(LOST, true).seam() > 5, "a gap of two tiles");
    assertFalse(ends.continues(LOST, true));
  }

  @Test
  void blockAlone_doesNotGoOn() {
    float[] none = odds(box(0, 0, 0, 0));
    assertFalse(new BlockEnds(agreement, new OfBoth<>(odds(LOST), none)).continues(LOST, true));
  }
}
