package org.diesurvey.features;

/**
 * One octave of the periodicity analysis: a raster reduced by {@code reduction}, on which products
 * at these lags are summed.
 *
 * @param reduction 1, 2, 4 or 8 working px per px of this level
 * @param firstLag smallest lag, px of this level
 * @param lastLag largest lag, px of this level
 */
record Level(int reduction, int firstLag, int lastLag) {
  /** From one pixel to 192 working pixels without a gap; coarse lags on coarse rasters. */
  static final Level[] ALL = {
    new Level(1, 1, 24), new Level(2, 13, 24), new Level(4, 13, 24), new Level(8, 13, 24)
  };

  int lags() {
    return lastLag - firstLag + 1;
  }

  /** Total number of lags over all levels. */
  static int totalLags() {
    int n = 0;
    for (Level l : ALL) {
      n += l.lags();
    }
    return n;
  }

  /** Number of the first lag of a level among those of all levels. */
  static int firstLagNumber(int level) {
    int n = 0;
    for (int l = 0; l < level; l++) {
      n += ALL[l].lags();
    }
    return n;
  }
}
