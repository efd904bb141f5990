package org.diesurvey.comparison.tiles;

import java.util.ArrayList;
import java.util.List;
import java.util.function.IntPredicate;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.vision.Morphology;

/** Some tiles of a grid, with their bounding box (right and bottom exclusive). */
public final class TileSet {
  private final int columns;
  private final boolean[] in;
  private int left = Integer.MAX_VALUE;
  private int top = Integer.MAX_VALUE;
  private int right;
  private int bottom;
  private int count;

  public TileSet(int columns, boolean[] in) {
    this.columns = columns;
    this.in = in;
    for (int i = 0; i < in.length; i++) {
      if (in[i]) {
        surround(i);
        count++;
      }
    }
  }

  /** Tiles of given numbers, each once, of a grid of so many. */
  private TileSet(int columns, int size, int[] tiles, int count) {
    this.columns = columns;
    this.count = count;
    this.in = new boolean[size];
    for (int k = 0; k < count; k++) {
      in[tiles[k]] = true;
      surround(tiles[k]);
    }
  }

  /** Widens the bounding box to hold a tile. */
  private void surround(int tile) {
    left = Math.min(left, tile % columns);
    right = Math.max(right, tile % columns + 1);
    top = Math.min(top, tile / columns);
    bottom = Math.max(bottom, tile / columns + 1);
  }

  /** Parts that hang together, also by corners, largest first. */
  public static List<TileSet> parts(boolean[] mask, int columns) {
    boolean[] left = mask.clone();
    List<TileSet> out = new ArrayList<>();
    int[] part = new int[mask.length];
    for (int i = 0; i < left.length; i++) {
      if (left[i]) {
        left[i] = false;
        part[0] = i;
        out.add(new TileSet(columns, mask.length, part, flood(left, columns, part)));
      }
    }
    out.sort((p, q) -> Integer.compare(q.count, p.count));
    return out;
  }

  /** Takes out of {@code left} all that hangs together with the first tile; how many they are. */
  private static int flood(boolean[] left, int columns, int[] part) {
    int rows = left.length / columns;
    int count = 1;
    for (int k = 0; k < count; k++) {
      int row = part[k] / columns;
      int column = part[k] % columns;
      for (int y = Math.max(0, row - 1); y <= Math.min(rows - 1, row + 1); y++) {
        for (int x = Math.max(0, column - 1); x <= Math.min(columns - 1, column + 1); x++) {
          int n = y * columns + x;
          if (left[n]) {
            left[n] = false;
            part[count++] = n;
          }
        }
      }
    }
    return count;
  }

  /** Share of the tiles for which something holds; 0 of none. */
  public double share(IntPredicate holds) {
    int n = 0;
    for (int i = 0; i < in.length; i++) {
      n += in[i] && holds.test(i) ? 1 : 0;
    }
    return n / (double) Math.max(1, count);
  }

  /** The tiles of this set and of another. */
  public TileSet with(TileSet other) {
    boolean[] both = in.clone();
    for (int i = 0; i < both.length; i++) {
      both[i] |= other.in[i];
    }
    return new TileSet(columns, both);
  }

  /** What hangs together in a mask and meets this set, largest first; this set if nothing does. */
  public TileSet within(boolean[] mask) {
    for (TileSet t : parts(mask, columns)) {
      for (int i = 0; i < mask.length; i++) {
        if (t.in[i] && in[i]) {
          return t;
        }
      }
    }
    return this;
  }

  /** Grown by so many tiles in all directions. */
  public static boolean[] grown(boolean[] mask, int columns, int by) {
    return tiles(Morphology.dilate(raster(mask, columns), by));
  }

  /** Shrunk by so many tiles from all directions. */
  public static boolean[] shrunk(boolean[] mask, int columns, int by) {
    return tiles(Morphology.erode(raster(mask, columns), by));
  }

  /** Without what is not wider than twice so many tiles: see {@link Morphology#open}. */
  public static boolean[] opened(boolean[] mask, int columns, int by) {
    return tiles(Morphology.open(raster(mask, columns), by));
  }

  /** With gaps of up to twice so many tiles filled: see {@link Morphology#close}. */
  public static boolean[] closed(boolean[] mask, int columns, int by) {
    return tiles(Morphology.close(raster(mask, columns), by));
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

  public boolean[] mask() {
    return in;
  }

  public int count() {
    return count;
  }

  public int left() {
    return left;
  }

  public int top() {
    return top;
  }

  public int right() {
    return right;
  }

  public int bottom() {
    return bottom;
  }

  public double fill() {
    return count == 0 ? 0 : count / ((double) (right - left) * (bottom - top));
  }

  /** The same tiles elsewhere; what leaves the grid is lost. */
  public boolean[] shifted(int dx, int dy) {
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
