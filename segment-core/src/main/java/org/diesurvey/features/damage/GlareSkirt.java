package org.diesurvey.features.damage;

import java.util.Arrays;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.raster.PixelRect;
import org.diesurvey.tiles.FineMap;
import org.diesurvey.vision.Components;
import org.diesurvey.vision.Morphology;

/**
 * The skirt of glare: as bright as what hides the surface, but the pattern below still shows. Where
 * it does, nothing is hidden, and a memory goes on up to the core of the glare.
 */
final class GlareSkirt {
  /** Smaller places are grains without a skirt, um2. */
  private static final double LEAST_UM2 = 1600;

  /** Cells at the rim of a place whose activity is that of its edge. */
  private static final int EDGE_CELLS = 3;

  /** The pattern is looked for in squares of this reach, cells. */
  private static final int REACH_CELLS = 3;

  /** How far around a place its surroundings are looked at, cells. */
  private static final int AROUND_CELLS = 8;

  /** Share of the activity around a place that shows the pattern in it. */
  private static final double SHOWN = 0.5;

  /** The same as a multiple of the activity of the quietest part of the place: its core. */
  private static final double ABOVE_NOISE = 2.5;

  /**
   * Share of a place's inside that must show the pattern: residue has a hard edge, glare has not.
   */
  private static final double LEAST_SHARE = 0.1;

  private GlareSkirt() {}

  /**
   * Frees the cells in which the pattern shows.
   *
   * @param spots 1 where the picture is brighter than the layer, 2 darker; changed
   */
  static void free(byte[] spots, FineMap fine) {
    int w = fine.columns();
    int h = fine.rows();
    byte[] bright = new byte[spots.length];
    for (int i = 0; i < spots.length; i++) {
      bright[i] = (byte) (spots[i] == 1 ? 1 : 0);
    }
    LabelRaster mask = LabelRaster.over(w, h, bright);
    Components.Labelling parts = Components.label(mask);
    LabelRaster inner = null;
    for (Components.Component c : parts.components()) {
      if (c.cells() * fine.cellUm() * fine.cellUm() < LEAST_UM2) {
        continue;
      }
      if (inner == null) {
        inner = Morphology.erode(mask, EDGE_CELLS);
      }
      free(c, parts.ids(), inner, spots, fine);
    }
  }

  private static void free(
      Components.Component c, int[] ids, LabelRaster inner, byte[] spots, FineMap fine) {
    int w = fine.columns();
    double[] own = own(c, ids, fine);
    double least = Math.max(ABOVE_NOISE * own[own.length / 10], SHOWN * around(c, spots, fine));
    PixelRect b = c.bounds();
    int inside = 0;
    int shown = 0;
    boolean[] shows = new boolean[b.width() * b.height()];
    for (int y = b.y(); y < b.y() + b.height(); y++) {
      for (int x = b.x(); x < b.x() + b.width(); x++) {
        if (ids[y * w + x] == c.id()) {
          boolean is = activity(fine, x, y) >= least;
          shows[(y - b.y()) * b.width() + x - b.x()] = is;
          inside += inner.get(x, y);
          shown += is ? inner.get(x, y) : 0;
        }
      }
    }
    if (inside == 0 || shown < LEAST_SHARE * inside) {
      return;
    }
    for (int i = 0; i < shows.length; i++) {
      if (shows[i]) {
        spots[(b.y() + i / b.width()) * w + b.x() + i % b.width()] = 0;
      }
    }
  }

  /** Median activity of the free cells around a place; infinite where there are none. */
  private static double around(Components.Component c, byte[] spots, FineMap fine) {
    PixelRect b = c.bounds();
    int x0 = Math.max(0, b.x() - AROUND_CELLS);
    int y0 = Math.max(0, b.y() - AROUND_CELLS);
    int x1 = Math.min(fine.columns(), b.x() + b.width() + AROUND_CELLS);
    int y1 = Math.min(fine.rows(), b.y() + b.height() + AROUND_CELLS);
    double[] seen = new double[(x1 - x0) * (y1 - y0)];
    int n = 0;
    for (int y = y0; y < y1; y++) {
      for (int x = x0; x < x1; x++) {
        if (spots[y * fine.columns() + x] == 0) {
          seen[n++] = activity(fine, x, y);
        }
      }
    }
    Arrays.sort(seen, 0, n);
    return n == 0 ? Double.POSITIVE_INFINITY : seen[n / 2];
  }

  private static double activity(FineMap fine, int x, int y) {
    double sum = 0;
    int n = 0;
    for (int dy = -REACH_CELLS; dy <= REACH_CELLS; dy++) {
      for (int dx = -REACH_CELLS; dx <= REACH_CELLS; dx++) {
        if (x + dx >= 0 && y + dy >= 0 && x + dx < fine.columns() && y + dy < fine.rows()) {
          sum += fine.activity(y + dy, x + dx);
          n++;
        }
      }
    }
    return sum / n;
  }

  /** Activity of the cells of a place, least first. */
  private static double[] own(Components.Component c, int[] ids, FineMap fine) {
    PixelRect b = c.bounds();
    double[] all = new double[c.cells()];
    int n = 0;
    for (int y = b.y(); y < b.y() + b.height(); y++) {
      for (int x = b.x(); x < b.x() + b.width(); x++) {
        if (ids[y * fine.columns() + x] == c.id()) {
          all[n++] = activity(fine, x, y);
        }
      }
    }
    Arrays.sort(all);
    return all;
  }
}
