package org.diesurvey.features;

/**
 * Quantities per tile whose scatter over a window tells how even a surface is: memory arrays are
 * even, logic and macros are not.
 */
final class Evenness {
  static final String[] NAMES = {"grey", "1 um energy", "2 um energy", "4 um energy", "direction"};

  /** Planes: the quantities, their squares, and 1 for tiles that count. */
  static final int PLANES = 2 * NAMES.length + 1;

  /** Variance of grey below which a band counts as empty; keeps logarithms finite. */
  private static final double FLOOR = 1e-7;

  private Evenness() {}

  /**
   * Writes the planes of a row of tiles; 0 for tiles that were taken out.
   *
   * @param sums of the row, plane after plane
   * @param at index in the row's numbers at which the planes start
   */
  static void write(float[] sums, int columns, int at) {
    for (int c = 0; c < columns; c++) {
      boolean counts = sums[c] != 0;
      for (int k = 0; k < NAMES.length; k++) {
        float v = counts ? quantity(k, sums, columns, c) : 0;
        sums[at + k * columns + c] = v;
        sums[at + (NAMES.length + k) * columns + c] = v * v;
      }
      sums[at + 2 * NAMES.length * columns + c] = sums[c] > 0 ? 1 : 0;
    }
  }

  private static float quantity(int k, float[] sums, int columns, int c) {
    double n = sums[c];
    if (k == 0) {
      return (float) (10 * sums[columns + c] / n);
    }
    if (k <= 3) {
      return (float) (0.5 * Math.log(sums[TextureSums.bandPlane(k, 0) * columns + c] / n + FLOOR));
    }
    double xx = sums[TextureSums.gradientPlane(0, 0) * columns + c];
    double yy = sums[TextureSums.gradientPlane(0, 1) * columns + c];
    return (float) ((xx - yy) / (xx + yy + FLOOR * n));
  }
}
