package org.diesurvey.inspection;

import java.util.Arrays;

/**
 * Looks for steps of grey in one band of rows.
 *
 * <p>At a seam of two fields every pixel's relative difference across it is shifted by the same
 * small amount, whatever the layout is; at an edge of the layout the differences are large and
 * mixed. So differences are clamped at {@link #CLAMP} times their median in the band, which leaves
 * the even places to decide: an estimate of the shift with bounded influence (P. Huber, "Robust
 * Estimation of a Location Parameter", 1964; one step, from memory).
 */
final class StepScan {
  /** Columns of one stretch of a row. */
  static final int STRETCH_PX = 128;

  private static final float CLAMP = 2.5f;

  /** Grey added to every sum of four pixels: relative differences of black would be all noise. */
  private static final float BLACK = 0.04f;

  /** Differences beyond this are an edge of the layout, whatever the light. */
  private static final float WIDE = 0.3f;

  private static final int SAMPLE_STEP = 61;

  private final float[] band;
  private final int width;
  private final int rows;

  /**
   * @param band rows of grey with 2 more rows above and below, row-major
   * @param width columns
   * @param rows without the 4 more
   */
  StepScan(float[] band, int width, int rows) {
    this.band = band;
    this.width = width;
    this.rows = rows;
  }

  /** Steps between columns, as one stretch. */
  void columns(StepField into, int stretch) {
    float clamp = clamp(1);
    double[] sum = new double[width];
    double[] squares = new double[width];
    double[] wide = new double[width];
    int[] in = new int[width];
    int count = 0;
    for (int y = 0; y < rows; y++) {
      int at = (y + 2) * width;
      for (int x = 2; x < width - 1; x++) {
        float d = difference(at + x, 1);
        wide[x] += Math.max(-WIDE, Math.min(WIDE, d));
        if (d < clamp && d > -clamp) {
          in[x]++;
        } else {
          d = d > 0 ? clamp : -clamp;
        }
        sum[x] += d;
        squares[x] += d * d;
      }
      count++;
    }
    for (int x = 2; x < width - 1; x++) {
      into.set(stretch, x, sum[x], squares[x], wide[x], in[x], count);
    }
  }

  /** Steps between rows, in stretches of {@link #STRETCH_PX} columns. */
  void rows(StepField into, int firstRow, int photoRows) {
    float clamp = clamp(width);
    for (int y = 0; y < rows; y++) {
      int place = firstRow + y;
      if (place < 2 || place > photoRows - 2) {
        continue;
      }
      for (int s = 0; s < into.stretches(); s++) {
        int end = Math.min(width, (s + 1) * STRETCH_PX);
        double sum = 0;
        double squares = 0;
        double wide = 0;
        int in = 0;
        int count = 0;
        for (int x = s * STRETCH_PX; x < end; x++) {
          float d = difference((y + 2) * width + x, width);
          wide += Math.max(-WIDE, Math.min(WIDE, d));
          if (d < clamp && d > -clamp) {
            in++;
          } else {
            d = d > 0 ? clamp : -clamp;
          }
          sum += d;
          squares += d * d;
          count++;
        }
        into.set(s, place, sum, squares, wide, in, count);
      }
    }
  }

  /** Two pixels after the place against two before it, over half their sum. */
  private float difference(int i, int step) {
    float after = band[i] + band[i + step - (i + step < band.length ? 0 : step)];
    float before = band[i - step] + band[i - 2 * step];
    return 2 * (after - before) / (after + before + BLACK);
  }

  private float clamp(int step) {
    float[] sample = new float[rows * width / SAMPLE_STEP + 1];
    int n = 0;
    for (int i = 2 * width + 2; i < (rows + 2) * width - 2 && n < sample.length; i += SAMPLE_STEP) {
      sample[n++] = Math.abs(difference(i, step));
    }
    Arrays.sort(sample, 0, n);
    return Math.max(0.004f, CLAMP * sample[n / 2]);
  }
}
