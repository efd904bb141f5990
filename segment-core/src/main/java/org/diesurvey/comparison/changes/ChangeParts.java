package org.diesurvey.comparison.changes;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.diesurvey.comparison.tiles.TileSet;

/**
 * Parts of changed ground that windows ran together: each core of surely changed tiles takes the
 * tiles that are nearer to it than to other cores, on paths within the ground.
 */
final class ChangeParts {
  /** Log odds from which a tile is surely changed. */
  private static final float SURE = 1;

  /** Fewest tiles of a core, after its rim was taken off. */
  private static final int LEAST_CORE = 6;

  private ChangeParts() {}

  static List<TileSet> of(TileSet ground, float[] odds, int columns) {
    boolean[] sure = ground.mask().clone();
    for (int i = 0; i < sure.length; i++) {
      sure[i] &= odds[i] > SURE;
    }
    List<TileSet> cores = new ArrayList<>();
    for (TileSet core : TileSet.parts(TileSet.shrunk(sure, columns, 1), columns)) {
      if (core.count() >= LEAST_CORE) {
        cores.add(core);
      }
    }
    if (cores.size() < 2) {
      return List.of(ground);
    }
    int[] owner = new int[sure.length];
    Arrays.fill(owner, -1);
    ArrayDeque<Integer> open = new ArrayDeque<>();
    for (int c = 0; c < cores.size(); c++) {
      for (int i = 0; i < owner.length; i++) {
        if (cores.get(c).mask()[i]) {
          owner[i] = c;
          open.add(i);
        }
      }
    }
    int[] steps = {-1, 1, -columns, columns};
    while (!open.isEmpty()) {
      int t = open.poll();
      for (int s : steps) {
        int n = t + s;
        boolean wraps = Math.abs(s) == 1 && n / columns != t / columns;
        if (n >= 0 && n < owner.length && !wraps && ground.mask()[n] && owner[n] < 0) {
          owner[n] = owner[t];
          open.add(n);
        }
      }
    }
    List<TileSet> out = new ArrayList<>();
    for (int c = 0; c < cores.size(); c++) {
      boolean[] mask = new boolean[owner.length];
      for (int i = 0; i < mask.length; i++) {
        mask[i] = owner[i] == c;
      }
      out.add(new TileSet(columns, mask));
    }
    return out;
  }
}
