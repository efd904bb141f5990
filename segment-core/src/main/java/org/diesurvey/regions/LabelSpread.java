package org.diesurvey.regions;

import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.tiles.TileGrid;

/** Fills tiles without a label from their surroundings. */
final class LabelSpread {
  private LabelSpread() {}

  /**
   * Gives open tiles the label that most of their labelled neighbours have, ring by ring.
   *
   * @param label surface class ordinals a tile, changed where open
   * @param open tiles to fill; cleared as they are
   * @param outside label that is never passed on
   */
  static void into(int[] label, boolean[] open, TileGrid grid, int outside) {
    int columns = grid.columns();
    boolean changed = true;
    while (changed) {
      changed = false;
      int[] next = label.clone();
      boolean[] still = open.clone();
      for (int t = 0; t < label.length; t++) {
        if (!open[t]) {
          continue;
        }
        int[] votes = new int[SurfaceClass.COUNT];
        for (int[] d : new int[][] {{-1, 0}, {1, 0}, {0, -1}, {0, 1}}) {
          int r = t / columns + d[0];
          int c = t % columns + d[1];
          if (r >= 0 && c >= 0 && r < grid.rows() && c < columns) {
            int u = r * columns + c;
            if (!open[u] && label[u] != outside) {
              votes[label[u]]++;
            }
          }
        }
        int at = 0;
        for (int k = 1; k < votes.length; k++) {
          if (votes[k] > votes[at]) {
            at = k;
          }
        }
        if (votes[at] > 0) {
          next[t] = at;
          still[t] = false;
          changed = true;
        }
      }
      System.arraycopy(next, 0, label, 0, label.length);
      System.arraycopy(still, 0, open, 0, open.length);
    }
  }
}
