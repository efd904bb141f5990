package org.diesurvey.features;

import java.util.Arrays;
import org.diesurvey.tiles.TileGrid;

/**
 * What contrast is usual on a die in windows of one size, as natural logarithms.
 *
 * @param middle the median over all tiles
 * @param high what a tenth of the tiles exceeds
 */
record ContrastLevels(double middle, double high) {
  /** Mean square below which a band holds nothing but rounding; keeps logarithms finite. */
  private static final double FLOOR = 1e-8;

  /** Share of the tiles below the contrast of what the die shows best (own choice). */
  private static final double HIGH = 0.9;

  /** Bands whose energies are the contrast: 1 to 4 um. */
  private static final int FIRST_BAND = 1;

  private static final int BANDS = 3;

  /** Energies of single tiles, one plane for each band behind the plane of pixel counts. */
  static float[][] planes(TileStatistics s) {
    TileGrid grid = s.grid();
    float[][] out = new float[1 + BANDS][grid.count()];
    float[] row = new float[TextureSums.planes() * grid.columns()];
    for (int r = 0; r < grid.rows(); r++) {
      s.row(r, TextureSums.planes(), row);
      for (int p = 0; p < out.length; p++) {
        int plane = p == 0 ? 0 : TextureSums.bandPlane(FIRST_BAND + p - 1, 0);
        System.arraycopy(row, plane * grid.columns(), out[p], r * grid.columns(), grid.columns());
      }
    }
    return out;
  }

  /** Levels of windows of one size. */
  static ContrastLevels of(float[][] planes, TileGrid grid, int reach) {
    float[][] pooled = WindowSums.of(planes, grid, reach);
    double[] all = new double[grid.count()];
    for (int t = 0; t < all.length; t++) {
      double energy = 0;
      for (int b = 1; b <= BANDS; b++) {
        energy += pooled[b][t];
      }
      all[t] = log(energy, pooled[0][t]);
    }
    Arrays.sort(all);
    return new ContrastLevels(all[all.length / 2], all[(int) (HIGH * (all.length - 1))]);
  }

  /** Root mean square of grey of each tile alone. */
  static float[] single(float[][] planes) {
    float[] out = new float[planes[0].length];
    for (int t = 0; t < out.length; t++) {
      double energy = 0;
      for (int b = 1; b <= BANDS; b++) {
        energy += planes[b][t];
      }
      out[t] = (float) Math.sqrt(energy / Math.max(1, planes[0][t]));
    }
    return out;
  }

  /** Contrast of a window from its pooled sums, a row of tiles. */
  static double log(float[] pooled, int columns, int column) {
    double energy = 0;
    for (int b = 0; b < BANDS; b++) {
      energy += pooled[TextureSums.bandPlane(FIRST_BAND + b, 0) * columns + column];
    }
    return log(energy, pooled[column]);
  }

  private static double log(double energy, double pixels) {
    return 0.5 * Math.log(energy / Math.max(1, pixels) + FLOOR);
  }
}
