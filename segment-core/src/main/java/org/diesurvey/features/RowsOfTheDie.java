package org.diesurvey.features;

import org.diesurvey.features.FeatureSchema.Direction;
import org.diesurvey.features.FeatureSchema.OwnPeriod;
import org.diesurvey.features.FeatureSchema.Window;
import org.diesurvey.tiles.TileGrid;

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

  private static final int BINS_PER_OCTAVE = 8;
  private static final int OCTAVES_BELOW = 6;
  private static final int BINS = 16 * BINS_PER_OCTAVE;

  /** Looks at the windows of middle size. */
  static RowsOfTheDie of(float[][] rows, TileGrid grid) {
    int firmRise = FeatureSchema.column(Window.MIDDLE, Direction.FIRM, OwnPeriod.RISE);
    int looseRise = FeatureSchema.column(Window.MIDDLE, Direction.LOOSE, OwnPeriod.RISE);
    int firmLag = FeatureSchema.column(Window.MIDDLE, Direction.FIRM, OwnPeriod.LAG);
    double[] bins = new double[BINS];
    double all = 0;
    for (float[] row : rows) {
      float height = row[firmRise];
      if (height < PERIODIC || row[looseRise] > ONE_WAY * height) {
        continue;
      }
      int bin = Math.round((row[firmLag] + OCTAVES_BELOW) * BINS_PER_OCTAVE);
      bins[Math.max(0, Math.min(BINS - 1, bin))] += height;
      all += height;
    }
    if (all < LEAST_SHARE * grid.count()) {
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

  /** Fills in the periods of all tiles over that of the rows. */
  void write(float[][] rows) {
    for (Window w : Window.values()) {
      for (Direction d : Direction.values()) {
        int lag = FeatureSchema.column(w, d, OwnPeriod.LAG);
        int over = FeatureSchema.column(w, d, OwnPeriod.OVER_ROWS);
        for (float[] row : rows) {
          row[over] = row[lag] - logLag;
        }
      }
    }
  }
}
