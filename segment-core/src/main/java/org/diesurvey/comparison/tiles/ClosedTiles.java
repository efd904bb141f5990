package org.diesurvey.comparison.tiles;

import java.util.List;
import java.util.function.IntPredicate;

/**
 * Tiles of which single ones are asked for, closed by one tile (grown, then shrunk, as {@link
 * TileSet#closed} does); only what hangs together with given tiles is worked out.
 */
public final class ClosedTiles {
  private static final byte YES = 1;
  private static final byte NO = 2;

  private final int columns;
  private final int rows;
  private final IntPredicate found;
  private final byte[] own;
  private final byte[] grown;

  public ClosedTiles(int columns, int rows, IntPredicate found) {
    this.columns = columns;
    this.rows = rows;
    this.found = found;
    this.own = new byte[columns * rows];
    this.grown = new byte[columns * rows];
  }

  /** Parts of the closed tiles that hold one of these at least, largest first. */
  public List<TileSet> parts(boolean[] seeds) {
    boolean[] reached = new boolean[seeds.length];
    boolean[] asked = new boolean[seeds.length];
    int[] open = new int[seeds.length];
    for (int i = 0; i < seeds.length; i++) {
      if (!seeds[i] || asked[i]) {
        continue;
      }
      asked[i] = true;
      int n = 0;
      if (closed(i)) {
        reached[i] = true;
        open[n++] = i;
      }
      while (n > 0) {
        int t = open[--n];
        for (int y = Math.max(0, t / columns - 1); y <= Math.min(rows - 1, t / columns + 1); y++) {
          for (int x = Math.max(0, t % columns - 1);
              x <= Math.min(columns - 1, t % columns + 1);
              x++) {
            int k = y * columns + x;
            if (!asked[k]) {
              asked[k] = true;
              if (closed(k)) {
                reached[k] = true;
                open[n++] = k;
              }
            }
          }
        }
      }
    }
    return TileSet.parts(reached, columns);
  }

  private boolean closed(int tile) {
    return around(tile, false);
  }

  /** Whether any tile of the square is found, or else whether all are grown. */
  private boolean around(int tile, boolean any) {
    int row = tile / columns;
    int column = tile % columns;
    for (int y = Math.max(0, row - 1); y <= Math.min(rows - 1, row + 1); y++) {
      for (int x = Math.max(0, column - 1); x <= Math.min(columns - 1, column + 1); x++) {
        int i = y * columns + x;
        if ((any ? found(i) : grown(i)) == any) {
          return any;
        }
      }
    }
    return !any;
  }

  private boolean grown(int tile) {
    if (grown[tile] == 0) {
      grown[tile] = around(tile, true) ? YES : NO;
    }
    return grown[tile] == YES;
  }

  private boolean found(int tile) {
    if (own[tile] == 0) {
      own[tile] = found.test(tile) ? YES : NO;
    }
    return own[tile] == YES;
  }
}
