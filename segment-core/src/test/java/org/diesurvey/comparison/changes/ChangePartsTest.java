package org.diesurvey.comparison.changes;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.diesurvey.comparison.tiles.TileSet;
import org.junit.jupiter.api.Test;

class ChangePartsTest {
  private static final int COLUMNS = 30;

  private static void fill(boolean[] mask, float[] odds, int left, int width, float v) {
    for (int y = 2; y < 12; y++) {
      for (int x = left; x < left + width; x++) {
        mask[y * COLUMNS + x] = true;
        odds[y * COLUMNS + x] = v;
      }
    }
  }

  @Test
  void twoBlocks_withUnsureTilesBetweenThem_areTwoParts() {
    boolean[] mask = new boolean[COLUMNS * 14];
    float[] odds = new float[mask.length];
    fill(mask, odds, 2, 8, 5);
    fill(mask, odds, 10, 2, 0);
    fill(mask, odds, 12, 12, 4);
    List<TileSet> parts = ChangeParts.of(new TileSet(COLUMNS, mask), odds, COLUMNS);
    assertEquals(2, parts.size());
    assertEquals(11, parts.get(0).left());
    assertEquals(24, parts.get(0).right());
    assertEquals(2, parts.get(1).left());
    assertEquals(11, parts.get(1).right());
    // Nothing of the ground is lost, and nothing counts twice.
    assertEquals(220, parts.get(0).count() + parts.get(1).count() + lost(parts, mask));
  }

  private static int lost(List<TileSet> parts, boolean[] mask) {
    int n = 0;
    for (int i = 0; i < mask.length; i++) {
      boolean in = parts.get(0).mask()[i] || parts.get(1).mask()[i];
      n += mask[i] && !in ? 1 : 0;
    }
    return n;
  }

  @Test
  void oneBlock_staysWhole() {
    boolean[] mask = new boolean[COLUMNS * 14];
    float[] odds = new float[mask.length];
    fill(mask, odds, 2, 20, 3);
    assertEquals(1, ChangeParts.of(new TileSet(COLUMNS, mask), odds, COLUMNS).size());
  }
}
