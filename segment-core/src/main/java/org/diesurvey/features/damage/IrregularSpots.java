package org.diesurvey.features.damage;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.apache.commons.math3.util.KthSelector;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.raster.PixelRect;
import org.diesurvey.vision.Components;

/**
 * Bright or dark spots that stand out less than anything that is surely damage, but have what
 * layout never has: an outline that runs at all angles, an even inside, and no like elsewhere.
 * Since it looks at outlines and not at shares of the picture, it finds damage of any size.
 */
final class IrregularSpots {
  /** Least size, um2. */
  private static final double LEAST_UM2 = 60;

  /** Largest deviation inside a spot, over its contrast to the ring around it. */
  private static final double EVEN = 0.35;

  /** Least contrast to the ring around, as a share of the threshold. */
  private static final double CONTRAST_SHARE = 0.5;

  /** Least contrast in grey. */
  private static final double LEAST_GREY = 0.05;

  /** More spots than this of one size, within a factor of 1.5, are a pattern of the layout. */
  private static final int MOST_ALIKE = 3;

  private static final double ALIKE = 1.5;

  /** Thresholds as shares of the way from the median to the extreme. */
  private static final double HIGHEST = 0.85;

  private static final double LOWEST = 0.2;
  private static final double STEP = 0.1;

  /** Share of cells beyond the extreme. */
  private static final double EXTREME = 0.0005;

  private final float[] grey;
  private final int width;
  private final int height;
  private final double cellUm2;
  private final double leastOffAxis;

  /**
   * @param offAxis least share of the outline that runs more than 15 degrees off the axes
   */
  IrregularSpots(float[] grey, int width, int height, double cellUm, double offAxis) {
    this.grey = grey;
    this.width = width;
    this.height = height;
    this.cellUm2 = cellUm * cellUm;
    this.leastOffAxis = offAxis;
  }

  /** Marks brighter spots with 1 and darker ones with 2. */
  void mark(byte[] out) {
    double[] values = new double[grey.length];
    for (int i = 0; i < values.length; i++) {
      values[i] = grey[i];
    }
    double median = quantile(values, 0.5);
    for (int sign : new int[] {1, -1}) {
      double end = quantile(values, sign > 0 ? 1 - EXTREME : EXTREME);
      double quarter = quantile(values, sign > 0 ? 0.75 : 0.25);
      double least = Math.max(LEAST_GREY, 1.5 * sign * (quarter - median));
      List<int[]> spots = new ArrayList<>();
      for (double share = HIGHEST; share > LOWEST; share -= STEP) {
        double threshold = share * sign * (end - median);
        if (threshold < least) {
          break;
        }
        spots.addAll(spots(median, sign, threshold));
      }
      for (int[] spot : rare(spots)) {
        for (int i : spot) {
          out[i] = (byte) (sign > 0 ? 1 : 2);
        }
      }
    }
  }

  /** Puts the values in another order. */
  private static double quantile(double[] values, double share) {
    return new KthSelector().select(values, null, (int) (share * (values.length - 1)));
  }

  private List<int[]> spots(double median, int sign, double threshold) {
    byte[] mask = new byte[grey.length];
    for (int i = 0; i < mask.length; i++) {
      mask[i] = (byte) (sign * (grey[i] - median) > threshold ? 1 : 0);
    }
    Components.Labelling parts = Components.label(LabelRaster.over(width, height, mask));
    List<int[]> out = new ArrayList<>();
    for (Components.Component c : parts.components()) {
      boolean fits =
          c.cells() * cellUm2 >= LEAST_UM2
              && c.bounds().width() <= width / 2
              && c.bounds().height() <= height / 2;
      if (fits && isSpot(parts.ids(), c, sign, threshold)) {
        out.add(cells(parts.ids(), c));
      }
    }
    return out;
  }

  private boolean isSpot(int[] ids, Components.Component c, int sign, double threshold) {
    PixelRect b = c.bounds();
    double sum = 0;
    double squares = 0;
    double around = 0;
    int ring = 0;
    int outline = 0;
    int offAxis = 0;
    for (int y = Math.max(2, b.y() - 3); y < Math.min(height - 2, b.y() + b.height() + 3); y++) {
      for (int x = Math.max(2, b.x() - 3); x < Math.min(width - 2, b.x() + b.width() + 3); x++) {
        int i = y * width + x;
        boolean own = ids[i] == c.id();
        if (own) {
          sum += grey[i];
          squares += (double) grey[i] * grey[i];
        }
        // First moments of the spot within two cells: they point across its outline.
        int gx = 0;
        int gy = 0;
        int near = 0;
        boolean touches = false;
        for (int dy = -2; dy <= 2; dy++) {
          for (int dx = -2; dx <= 2; dx++) {
            if (ids[i + dy * width + dx] == c.id()) {
              gx += dx;
              gy += dy;
              near++;
              touches |= Math.abs(dx) <= 1 && Math.abs(dy) <= 1;
            }
          }
        }
        if (gx * gx + gy * gy > 36) {
          outline++;
          double angle = Math.abs(Math.toDegrees(Math.atan2(gy, gx))) % 90;
          offAxis += Math.min(angle, 90 - angle) > 15 ? 1 : 0;
        }
        if (!own && near > 0 && !touches) {
          around += grey[i];
          ring++;
        }
      }
    }
    if (ring < 6 || outline < 6 || offAxis < leastOffAxis * outline) {
      return false;
    }
    double n = c.cells();
    double mean = sum / n;
    double deviation = Math.sqrt(Math.max(0, squares / n - mean * mean));
    double contrast = sign * (mean - around / ring);
    return contrast >= Math.max(LEAST_GREY, CONTRAST_SHARE * threshold)
        && deviation <= EVEN * contrast;
  }

  private int[] cells(int[] ids, Components.Component c) {
    int[] out = new int[c.cells()];
    PixelRect b = c.bounds();
    int n = 0;
    for (int y = b.y(); y < b.y() + b.height(); y++) {
      for (int x = b.x(); x < b.x() + b.width(); x++) {
        if (ids[y * width + x] == c.id()) {
          out[n++] = y * width + x;
        }
      }
    }
    return out;
  }

  /** The widest form of every spot, without those that have many like them. */
  private static List<int[]> rare(List<int[]> spots) {
    List<int[]> sorted = new ArrayList<>(spots);
    sorted.sort(Comparator.comparingInt((int[] s) -> -s.length));
    java.util.Set<Integer> taken = new java.util.HashSet<>();
    List<int[]> widest = new ArrayList<>();
    for (int[] s : sorted) {
      if (!taken.contains(s[0])) {
        widest.add(s);
        for (int i : s) {
          taken.add(i);
        }
      }
    }
    List<int[]> out = new ArrayList<>();
    for (int[] s : widest) {
      long alike =
          widest.stream()
              .filter(o -> o.length <= ALIKE * s.length && s.length <= ALIKE * o.length)
              .count();
      if (alike <= MOST_ALIKE) {
        out.add(s);
      }
    }
    return out;
  }
}
