package org.diesurvey.features;

import java.util.Arrays;
import org.diesurvey.tiles.FineMap;

/** Contrast of tiles over their own brightness, damaged tiles left out. */
public final class RelativeContrast {
  /** Least brightness that is divided by, grey 0..1. */
  private static final double LEAST_GREY = 0.02;

  private final double[] sorted;

  private RelativeContrast(double[] sorted) {
    this.sorted = sorted;
  }

  /** Of all tiles of a die: root mean square of grey in the bands of 1 to 8 um over mean grey. */
  public static RelativeContrast of(FeatureTable features) {
    FineMap fine = features.fine();
    int columns = features.grid().columns();
    int q = FineMap.PER_TILE;
    double[] all = new double[features.grid().count()];
    int n = 0;
    for (int t = 0; t < all.length; t++) {
      if (features.damaged(t)) {
        continue;
      }
      double grey = 0;
      for (int i = 0; i < q; i++) {
        for (int j = 0; j < q; j++) {
          grey += fine.grey(t / columns * q + i, t % columns * q + j) / (q * q);
        }
      }
      all[n++] = features.contrast(t) / Math.max(LEAST_GREY, grey);
    }
    double[] sorted = Arrays.copyOf(all, n);
    Arrays.sort(sorted);
    return new RelativeContrast(sorted);
  }

  /** The value that a share of the tiles does not exceed; 0 if there are no sound tiles. */
  public double quantile(double share) {
    return sorted.length == 0
        ? 0
        : sorted[(int) Math.min(sorted.length - 1.0, share * sorted.length)];
  }
}
