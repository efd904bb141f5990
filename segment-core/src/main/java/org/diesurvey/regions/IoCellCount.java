package org.diesurvey.regions;

import java.util.Arrays;
import org.diesurvey.features.FineMap;

/**
 * Counts the I/O cells along the pad ring, one bond pad a cell: their common pitch from the
 * autocorrelation of the activity along each side, then the slots of that pitch in which something
 * stands. Cells without a pad (fillers, corners) and staggered double rows are not told apart.
 */
final class IoCellCount {
  /** Range of cell pitches looked for, um (common practice, no source). */
  private static final double LEAST_PITCH_UM = 36;

  private static final double LARGEST_PITCH_UM = 260;

  /** Rise of the autocorrelation that makes a pitch clear. */
  private static final double CLEAR = 0.15;

  /** Activity of a slot, as a share of the middle slot's, from which a cell stands in it. */
  private static final double OCCUPIED = 0.45;

  private final FineMap fine;

  IoCellCount(FineMap fine) {
    this.fine = fine;
  }

  /**
   * Cells along one side.
   *
   * @param activity mean activity across the ring at each quarter tile along the side
   * @return how many; 0 if no pitch is clear
   */
  int count(double[] activity) {
    int least = (int) Math.round(LEAST_PITCH_UM / fine.cellUm());
    int largest = (int) Math.min(LARGEST_PITCH_UM / fine.cellUm(), activity.length / 3.0);
    if (largest <= least + 2) {
      return 0;
    }
    double pitch = pitch(activity, least, largest);
    return pitch == 0 ? 0 : occupied(activity, pitch);
  }

  private static double pitch(double[] a, int least, int largest) {
    double mean = Arrays.stream(a).average().orElse(0);
    double[] r = new double[largest + 2];
    for (int lag = 0; lag < r.length; lag++) {
      for (int i = 0; i + lag < a.length; i++) {
        r[lag] += (a[i] - mean) * (a[i + lag] - mean);
      }
      r[lag] /= a.length - lag;
    }
    if (r[0] <= 0) {
      return 0;
    }
    double top = 0;
    for (int lag = least; lag <= largest; lag++) {
      top = Math.max(top, r[lag] / r[0]);
    }
    if (top < CLEAR) {
      return 0;
    }
    // The shortest lag that is nearly as good as the best: the best may be a multiple of the pitch.
    for (int lag = least; lag <= largest; lag++) {
      boolean peak = r[lag] >= r[lag - 1] && r[lag] >= r[lag + 1];
      if (peak && r[lag] / r[0] >= 0.6 * top) {
        double bend = r[lag - 1] - 2 * r[lag] + r[lag + 1];
        double coarse = lag + (bend < 0 ? 0.5 * (r[lag - 1] - r[lag + 1]) / bend : 0);
        return refine(a, mean, coarse);
      }
    }
    return 0;
  }

  /** Places the pitch by a multiple of it, whose peak divides the error. */
  private static double refine(double[] a, double mean, double coarse) {
    double best = coarse;
    for (int k = 2; k * coarse + 3 < a.length / 2.0 && k <= 8; k++) {
      int at = (int) Math.round(k * best);
      double[] r = new double[5];
      for (int d = -2; d <= 2; d++) {
        for (int i = 0; i + at + d < a.length; i++) {
          r[d + 2] += (a[i] - mean) * (a[i + at + d] - mean);
        }
        r[d + 2] /= a.length - at - d;
      }
      int m = 1;
      for (int d = 1; d <= 3; d++) {
        m = r[d] > r[m] ? d : m;
      }
      double bend = r[m - 1] - 2 * r[m] + r[m + 1];
      boolean peak = r[m] >= r[m - 1] && r[m] >= r[m + 1];
      if (!peak || bend >= 0 || r[m] <= 0) {
        break;
      }
      best = (at + m - 2 + 0.5 * (r[m - 1] - r[m + 1]) / bend) / k;
    }
    return best;
  }

  private static int occupied(double[] a, double pitch) {
    double bestPhase = 0;
    double least = Double.MAX_VALUE;
    for (double phase = 0; phase < pitch; phase += 1) {
      double sum = 0;
      int n = 0;
      for (double at = phase; at < a.length; at += pitch) {
        sum += a[(int) at];
        n++;
      }
      if (sum / n < least) {
        least = sum / n;
        bestPhase = phase;
      }
    }
    int slots = (int) ((a.length - bestPhase) / pitch) + 2;
    double[] level = new double[slots];
    int used = 0;
    for (double at = bestPhase - pitch; at < a.length; at += pitch) {
      int from = (int) Math.max(0, Math.round(at));
      int to = (int) Math.min(a.length, Math.round(at + pitch));
      if (to - from < 0.6 * pitch || used == slots) {
        continue;
      }
      for (int i = from; i < to; i++) {
        level[used] += a[i] / (to - from);
      }
      used++;
    }
    double[] sorted = Arrays.copyOf(level, used);
    Arrays.sort(sorted);
    double middle = sorted[used / 2];
    int count = 0;
    for (int i = 0; i < used; i++) {
      count += level[i] > OCCUPIED * middle ? 1 : 0;
    }
    return count;
  }
}
