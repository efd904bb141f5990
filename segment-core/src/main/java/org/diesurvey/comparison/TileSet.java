package org.diesurvey.comparison;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.List;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.vision.Components;

/** Some tiles of a grid, with their bounding box (right and bottom exclusive). */
final class TileSet {
  private final int columns;
  private final boolean[] in;
  private int left = Integer.MAX_VALUE;
  private int top = Integer.MAX_VALUE;
  private int right;
  private int bottom;
  private int count;

  TileSet(int columns, boolean[] in) {
    this.columns = columns;
    this.in = in;
    for (int i = 0; i < in.length; i++) {
      if (in[i]) {
        left = Math.min(left, i % columns);
        right = Math.max(right, i % columns + 1);
        top = Math.min(top, i / columns);
        bottom = Math.max(bottom, i / columns + 1);
        count++;
      }
    }
  }

  /** Parts that hang together, also by corners, largest first. */
  static List<TileSet> parts(boolean[] mask, int columns) {
    boolean[] left = mask.clone();
    int rows = mask.length / columns;
    List<TileSet> out = new ArrayList<>();
    ArrayDeque<Integer> open = new ArrayDeque<>();
    for (int i = 0; i < left.length; i++) {
      if (!left[i]) {
        continue;
      }
      boolean[] part = new boolean[mask.length];
      left[i] = false;
      open.push(i);
      while (!open.isEmpty()) {
        int t = open.pop();
        part[t] = true;
        for (int y = Math.max(0, t / columns - 1); y <= Math.min(rows - 1, t / columns + 1); y++) {
          for (int x = Math.max(0, t % columns - 1);
              x <= Math.min(columns - 1, t % columns + 1);
              x++) {
            int n = y * columns + x;
            if (left[n]) {
              left[n] = false;
              open.push(n);
            }
          }
        }
      }
      out.add(new TileSet(columns, part));
    }
    out.sort((p, q) -> Integer.compare(q.count, p.count));
    return out;
  }

  /** What hangs together in a mask and meets this set, largest first; this set if nothing does. */
  TileSet within(boolean[] mask) {
    for (TileSet t : parts(mask, columns)) {
      for (int i = 0; i < mask.length; i++) {
        if (t.in[i] && in[i]) {
          return t;
        }
      }
    }
    return this;
  }

  /** Grown by so many tiles in all directions; shrunk where negative. */
  static boolean[] grown(boolean[] mask, int columns, int by) {
    return tiles(Components.dilate(raster(mask, columns), by));
  }

  /** Opened by so many tiles where negative, else closed: see {@link Components#openOrClose}. */
  static boolean[] openOrClosed(boolean[] mask, int columns, int by) {
    return tiles(Components.openOrClose(raster(mask, columns), by));
  }

  private static LabelRaster raster(boolean[] mask, int columns) {
    byte[] cells = new byte[mask.length];
    for (int i = 0; i < cells.length; i++) {
      cells[i] = (byte) (mask[i] ? 1 : 0);
    }
    return LabelRaster.over(columns, mask.length / columns, cells);
  }

  private static boolean[] tiles(LabelRaster raster) {
    boolean[] out = new boolean[raster.array().length];
    for (int i = 0; i < out.length; i++) {
      out[i] = raster.array()[i] != 0;
    }
    return out;
  }

  boolean has(int column, int row) {
    return in[row * columns + column];
  }

  boolean[] mask() {
    return in;
  }

  int count() {
    return count;
  }

  int left() {
    return left;
  }

  int top() {
    return top;
  }

  int right() {
    return right;
  }

  int bottom() {
    return bottom;
  }

  double fill() {
    return count == 0 ? 0 : count / ((double) (right - left) * (bottom - top));
  }

  /** The same tiles elsewhere; what leaves the grid is lost. */
  boolean[] shifted(int dx, int dy) {
    boolean[] out = new boolean[in.length];
    int rows = in.length / columns;
    for (int i = 0; i < in.length; i++) {
      int x = i % columns + dx;
      int y = i / columns + dy;
      if (in[i] && x >= 0 && y >= 0 && x < columns && y < rows) {
        out[y * columns + x] = true;
      }
    }
    return out;
  }
}
