package org.diesurvey.inspection;

import java.util.ArrayList;
import java.util.List;

/**
 * Steps between neighbouring pixels, sorted by the place of the step in a grid of 8 x 8 px. JPEG
 * codes squares of 8 x 8 px one by one (ITU-T T.81), so a strongly compressed picture has larger
 * steps between the squares than inside: the idea of Z. Wang, H. Sheikh and A. Bovik, "No-reference
 * perceptual quality assessment of JPEG compressed images", ICIP 2002 (from memory). Differs from
 * the paper: a ratio to the steps inside, and steps are cut at {@link #CUT}, so that the layout's
 * edges do not decide.
 *
 * @param across eight sums for the steps between columns
 * @param down eight sums for the steps between rows
 * @param acrossCount steps in each of the sums
 * @param downCount steps in each of the sums
 */
record BlockGrid(
    List<Double> across, List<Double> down, List<Double> acrossCount, List<Double> downCount) {
  private static final float CUT = 4 / 255f;

  BlockGrid {
    across = List.copyOf(across);
    down = List.copyOf(down);
    acrossCount = List.copyOf(acrossCount);
    downCount = List.copyOf(downCount);
  }

  /** Of one band: 2 rows above and below the n rows from row {@code first} of the photograph. */
  static BlockGrid of(float[] band, int width, int first, int n) {
    double[] across = new double[8];
    double[] down = new double[8];
    double[] acrossCount = new double[8];
    double[] downCount = new double[8];
    for (int y = 0; y < n; y++) {
      int at = (y + 2) * width;
      for (int x = 1; x < width; x++) {
        across[x & 7] += Math.min(CUT, Math.abs(band[at + x] - band[at + x - 1]));
      }
      for (int x = 1; x < width; x++) {
        acrossCount[x & 7]++;
      }
    }
    for (int y = first == 0 ? 1 : 0; y < n; y++) {
      int at = (y + 2) * width;
      int k = (first + y) & 7;
      for (int x = 0; x < width; x++) {
        down[k] += Math.min(CUT, Math.abs(band[at + x] - band[at + x - width]));
        downCount[k]++;
      }
    }
    return new BlockGrid(list(across), list(down), list(acrossCount), list(downCount));
  }

  BlockGrid plus(BlockGrid o) {
    return new BlockGrid(
        sum(across, o.across),
        sum(down, o.down),
        sum(acrossCount, o.acrossCount),
        sum(downCount, o.downCount));
  }

  /**
   * Mean step on the grid's lines over the mean step elsewhere, both directions together; the grid
   * may be shifted, as it is in a crop. 1 where there is no grid.
   */
  double ratio() {
    return Math.sqrt(ratio(across, acrossCount) * ratio(down, downCount));
  }

  private static double ratio(List<Double> sums, List<Double> counts) {
    double best = 1;
    for (int k = 0; k < 8; k++) {
      double other = 0;
      double others = 0;
      for (int i = 0; i < 8; i++) {
        if (i != k) {
          other += sums.get(i);
          others += counts.get(i);
        }
      }
      double on = sums.get(k) / Math.max(1, counts.get(k));
      best = Math.max(best, on / Math.max(1e-6, other / Math.max(1, others)));
    }
    return best;
  }

  private static List<Double> list(double[] values) {
    List<Double> list = new ArrayList<>(8);
    for (double v : values) {
      list.add(v);
    }
    return list;
  }

  private static List<Double> sum(List<Double> a, List<Double> b) {
    List<Double> list = new ArrayList<>(8);
    for (int i = 0; i < 8; i++) {
      list.add(a.get(i) + b.get(i));
    }
    return list;
  }
}
