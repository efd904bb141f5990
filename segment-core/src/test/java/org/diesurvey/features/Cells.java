package org.diesurvey.features;

/** Rows of cells without a rhythm: every 5 px along a row a new random level. */
public final class Cells {
  private Cells() {}

  /** -1 or 1. */
  static double level(double x, long row) {
    long h = (long) Math.floor(x / 5) * 0x9E3779B97F4A7C15L + row * 0xC2B2AE3D27D4EB4FL;
    h = (h ^ (h >>> 29)) * 0xBF58476D1CE4E5B9L;
    return (h >>> 40 & 1) == 0 ? -1 : 1;
  }
}
