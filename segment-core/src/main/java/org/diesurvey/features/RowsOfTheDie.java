package org.diesurvey.features;

import org.diesurvey.features.FeatureSchema.Direction;
import org.diesurvey.features.FeatureSchema.OwnPeriod;
import org.diesurvey.features.FeatureSchema.Window;

/**
 * The period that most of the one-way patterns of a die share: its rows of cells, two rows high,
 * because neighbours are mirrored. Other periods are told as multiples of it, which no scale
 * changes: a bit cell is small against the rows of its own die, a capacitor bank's plate large.
 *
 * @param logLag base-2 logarithm of the period in um; NaN where too few tiles show rows
 */
record RowsOfTheDie(float logLag) {
  /** Rise of a peak from which a direction counts as periodic (own choice). */
  private static final float PERIODIC = 0.25f;

  /** A pattern is one-way if the other direction rises less than this share (own choice). */
  private static final float ONE_WAY = 0.5f;

  /** Share of the tiles that must show rows. */
  private static final double LEAST_SHARE = 0.02;

  /** Bins of the histogram of periods, 6 octaves below one to 10 above it (own choice). */
  private static final int BINS_PER_OCTAVE = 8;

  private static final int OCTAVES_BELOW = 6;
  private static final int BINS = 16 * BINS_PER_OCTAVE;

  /** Periods of the windows of middle size, one of each for each tile. */
  static final class Evidence {
    private static final int RISE =
        FeatureSchema.column(Window.MIDDLE, Direction.FIRM, OwnPeriod.RISE);
    private static final int OTHER_RISE =
        FeatureSchema.column(Window.MIDDLE, Direction.LOOSE, OwnPeriod.RISE);
    private static final int LAG =
        FeatureSchema.column(Window.MIDDLE, Direction.FIRM, OwnPeriod.LAG);

    private final float[] rise;
    private final float[] otherRise;
    private final float[] lag;

    Evidence(int tiles) {
      this.rise = new float[tiles];
      this.otherRise = new float[tiles];
      this.lag = new float[tiles];
    }

    /** Takes what counts from the feature vector that starts at an index. */
    void set(int tile, float[] features, int at) {
      rise[tile] = features[at + RISE];
      otherRise[tile] = features[at + OTHER_RISE];
      lag[tile] = features[at + LAG];
    }
  }

  /** Looks at all tiles. */
  static RowsOfTheDie of(Evidence tiles) {
    double[] bins = new double[BINS];
    double all = 0;
    for (int t = 0; t < tiles.lag.length; t++) {
      float height = tiles.rise[t];
      if (height < PERIODIC || tiles.otherRise[t] > ONE_WAY * height) {
        continue;
      }
      int bin = Math.round((tiles.lag[t] + OCTAVES_BELOW) * BINS_PER_OCTAVE);
      bins[Math.max(0, Math.min(BINS - 1, bin))] += height;
      all += height;
    }
    if (all < LEAST_SHARE * tiles.lag.length) {
      return new RowsOfTheDie(Float.NaN);
    }
    int best = 0;
    double most = -1;
    for (int b = 1; b + 1 < BINS; b++) {
      double sum = bins[b - 1] + 2 * bins[b] + bins[b + 1];
      if (sum > most) {
        most = sum;
        best = b;
      }
    }
    return new RowsOfTheDie((float) best / BINS_PER_OCTAVE - OCTAVES_BELOW);
  }

  /** Fills the periods over that of the rows into a feature vector. */
  void write(float[] features) {
    for (Window w : Window.values()) {
      for (Direction d : Direction.values()) {
        features[FeatureSchema.column(w, d, OwnPeriod.OVER_ROWS)] =
            features[FeatureSchema.column(w, d, OwnPeriod.LAG)] - logLag;
      }
    }
  }
}
