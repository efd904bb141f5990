package org.diesurvey.comparison.tiles;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class ClosedTilesTest {
  private static final int COLUMNS = 31;
  private static final int ROWS = 19;

  @Test
  void partsWithASeed_areThoseOfTheWholeGridClosed() {
    int several = 0;
    for (int seed = 1; seed < 40; seed++) {
      SplittableRandom random = new SplittableRandom(seed);
      boolean[] found = new boolean[COLUMNS * ROWS];
      boolean[] seeds = new boolean[found.length];
      for (int i = 0; i < found.length; i++) {
        found[i] = random.nextDouble() < 0.12;
        seeds[i] = random.nextDouble() < 0.03;
      }
      List<TileSet> expected = new ArrayList<>();
      for (TileSet t : TileSet.parts(TileSet.closed(found, COLUMNS, 1), COLUMNS)) {
        boolean any = false;
        for (int i = 0; i < seeds.length; i++) {
          any |= seeds[i] && t.mask()[i];
        }
        if (any) {
          expected.add(t);
        }
      }
      List<TileSet> parts = new ClosedTiles(COLUMNS, ROWS, i -> found[i]).parts(seeds);
      assertEquals(expected.size(), parts.size(), "seed " + seed);
      for (int k = 0; k < parts.size(); k++) {
        assertArrayEquals(expected.get(k).mask(), parts.get(k).mask(), "seed " + seed);
      }
      several += parts.size() > 1 ? 1 : 0;
    }
    assertTrue(several > 10, "most grids have several parts: " + several);
  }
}
