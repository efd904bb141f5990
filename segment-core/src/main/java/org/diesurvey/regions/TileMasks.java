package org.diesurvey.regions;

import org.diesurvey.raster.LabelRaster;
import org.diesurvey.vision.Components;

/**
 * What a person does to a ragged mask of tiles: fills holes, drops specks, squares what is nearly
 * square.
 */
final class TileMasks {
  /** Overlap over union with its own rectangle from which a part is drawn as that rectangle. */
  private static final double NEARLY_RECTANGULAR = 0.85;

  /** Share of the fullest row or column that a border row or column of the rectangle must hold. */
  private static final double BORDER_SHARE = 0.5;

  private TileMasks() {}

  /** The parts with at least this many tiles. */
  static LabelRaster largeParts(LabelRaster mask, int leastTiles) {
    Components.Labelling parts = Components.label(mask);
    boolean[] large = new boolean[parts.components().size() + 1];
    for (Components.Component c : parts.components()) {
      large[c.id()] = c.cells() >= leastTiles;
    }
    byte[] out = new byte[mask.array().length];
    for (int t = 0; t < out.length; t++) {
      out[t] = (byte) (large[parts.ids()[t]] ? 1 : 0);
    }
    return LabelRaster.over(mask.width(), mask.height(), out);
  }

  /**
   * Fills holes of a mask.
   *
   * @param share a hole is filled if it is at most this share of the part around it
   */
  static LabelRaster fillHoles(LabelRaster mask, double share) {
    int w = mask.width();
    int h = mask.height();
    byte[] unset = new byte[w * h];
    for (int t = 0; t < unset.length; t++) {
      unset[t] = (byte) (mask.array()[t] == 0 ? 1 : 0);
    }
    Components.Labelling holes = Components.label(LabelRaster.over(w, h, unset));
    int[] owner = new int[holes.components().size() + 1];
    boolean[] closed = new boolean[owner.length];
    java.util.Arrays.fill(closed, true);
    Components.Labelling parts = Components.label(mask);
    for (int t = 0; t < unset.length; t++) {
      int hole = holes.ids()[t];
      if (hole == 0) {
        continue;
      }
      int x = t % w;
      int y = t / w;
      if (x == 0 || y == 0 || x == w - 1 || y == h - 1) {
        closed[hole] = false;
        continue;
      }
      for (int n : new int[] {t - 1, t + 1, t - w, t + w}) {
        if (parts.ids()[n] != 0) {
          owner[hole] = parts.ids()[n];
        }
      }
    }
    boolean[] fill = new boolean[owner.length];
    for (Components.Component c : holes.components()) {
      if (closed[c.id()] && owner[c.id()] > 0) {
        int around = parts.components().get(owner[c.id()] - 1).cells();
        fill[c.id()] = c.cells() <= share * around;
      }
    }
    byte[] out = mask.array().clone();
    for (int t = 0; t < out.length; t++) {
      if (fill[holes.ids()[t]]) {
        out[t] = 1;
      }
    }
    return LabelRaster.over(w, h, out);
  }

  /** One part alone, as its rectangle if it is nearly one. */
  static LabelRaster regular(
      Components.Labelling parts, Components.Component part, int width, int height) {
    int x0 = part.bounds().x();
    int y0 = part.bounds().y();
    int w = part.bounds().width();
    int h = part.bounds().height();
    int[] inRow = new int[h];
    int[] inColumn = new int[w];
    byte[] own = new byte[width * height];
    for (int y = 0; y < h; y++) {
      for (int x = 0; x < w; x++) {
        int t = (y0 + y) * width + x0 + x;
        if (parts.ids()[t] == part.id()) {
          own[t] = 1;
          inRow[y]++;
          inColumn[x]++;
        }
      }
    }
    int[] rows = range(inRow);
    int[] columns = range(inColumn);
    int common = 0;
    for (int y = rows[0]; y < rows[1]; y++) {
      for (int x = columns[0]; x < columns[1]; x++) {
        common += own[(y0 + y) * width + x0 + x];
      }
    }
    int box = (rows[1] - rows[0]) * (columns[1] - columns[0]);
    if (common < NEARLY_RECTANGULAR * (box + part.cells() - common)) {
      return LabelRaster.over(width, height, own);
    }
    byte[] rectangle = new byte[width * height];
    for (int y = rows[0]; y < rows[1]; y++) {
      for (int x = columns[0]; x < columns[1]; x++) {
        rectangle[(y0 + y) * width + x0 + x] = 1;
      }
    }
    return LabelRaster.over(width, height, rectangle);
  }

  /**
   * First index and end of the range whose border entries are at least a share of the largest
   * entry.
   */
  private static int[] range(int[] counts) {
    int most = 0;
    for (int c : counts) {
      most = Math.max(most, c);
    }
    int from = 0;
    while (counts[from] < BORDER_SHARE * most) {
      from++;
    }
    int to = counts.length;
    while (counts[to - 1] < BORDER_SHARE * most) {
      to--;
    }
    return new int[] {from, to};
  }
}
