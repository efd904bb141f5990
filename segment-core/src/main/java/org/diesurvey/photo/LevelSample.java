package org.diesurvey.photo;

import org.diesurvey.raster.PixelRect;

/** Grey levels of a sparse sample of rows: what a picture holds, before any of it is used. */
final class LevelSample {
  private static final int ROWS = 64;
  private static final int BINS = 1 << 16;

  /** Depths of cameras that write into wider samples. */
  private static final int[] DEPTHS = {8, 10, 12, 14};

  /** Share of pixels beyond the lowest and the highest level: dust, glare, hot and dead pixels. */
  private static final double BEYOND = 0.001;

  private final int[] histogram = new int[BINS];
  private long count;

  private LevelSample() {}

  static LevelSample of(PixelSource pixels) {
    LevelSample s = new LevelSample();
    int rows = Math.min(ROWS, pixels.height());
    float[] row = new float[pixels.width()];
    for (int i = 0; i < rows; i++) {
      // Middles of equal bands, so that a frame around the picture does not decide.
      int y = (int) ((2L * i + 1) * pixels.height() / (2L * rows));
      pixels.readGray(new PixelRect(0, y, pixels.width(), 1), row);
      for (float value : row) {
        s.histogram[Math.max(0, Math.min(BINS - 1, Math.round(value * (BINS - 1))))]++;
      }
    }
    s.count = (long) rows * pixels.width();
    return s;
  }

  /** Share of pixels within two levels, both 0 to 1 and inclusive. */
  double share(double from, double to) {
    long sum = 0;
    int last = (int) Math.min(BINS - 1, Math.floor(to * (BINS - 1)));
    for (int i = (int) Math.max(0, Math.ceil(from * (BINS - 1))); i <= last; i++) {
      sum += histogram[i];
    }
    return sum / (double) count;
  }

  /** Lowest level, 0 to 1. */
  double lowest() {
    int i = 0;
    while (i < BINS - 1 && histogram[i] == 0) {
      i++;
    }
    return i / (BINS - 1.0);
  }

  /** Highest level, 0 to 1. */
  double highest() {
    int i = BINS - 1;
    while (i > 0 && histogram[i] == 0) {
      i--;
    }
    return i / (BINS - 1.0);
  }

  /**
   * @param camera whether these are levels as a camera stored them, perhaps fewer than the file can
   *     hold
   */
  Levels levels(int storedBits, boolean camera) {
    int bits = storedBits;
    if (storedBits == 16 && camera) {
      long most = Math.round(highest() * (BINS - 1));
      for (int i = DEPTHS.length - 1; i >= 0 && most < 1L << DEPTHS[i]; i--) {
        bits = DEPTHS[i];
      }
    }
    double full = new Levels(storedBits, bits, 0, 1).fullScale();
    return new Levels(storedBits, bits, quantile(BEYOND) / full, quantile(1 - BEYOND) / full);
  }

  private double quantile(double share) {
    long sum = 0;
    int i = -1;
    while (i < BINS - 1 && sum < share * count) {
      sum += histogram[++i];
    }
    return Math.max(0, i) / (BINS - 1.0);
  }
}
