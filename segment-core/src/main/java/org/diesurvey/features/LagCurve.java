package org.diesurvey.features;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Local autocorrelation along one direction as a function of the lag, stitched from all levels and
 * normalised so that a noise-free picture has 1 at lag 0.
 */
final class LagCurve {
  /** Borders of the octaves in which the strongest peak is looked for, um. */
  static final double[] PEAK_OCTAVES_UM = {0.8, 1.6, 3.2, 6.4, 12.8, 25.6, 51.2};

  /** Borders of the lag ranges in which persistence is measured, um. */
  static final double[] RANGES_UM = {1.5, 5, 10, 20, 40};

  /** Share of the sum at lag 0 below which the noise correction does not go. */
  private static final double LEAST_SIGNAL = 0.25;

  /** Share of the highest rise from which an earlier peak is the period, not a half of it. */
  private static final float NEARLY = 0.85f;

  private static final float[] LAGS_PX = lagsPx();

  /** Share of a lag from which the valley before a peak is looked for. */
  private static final float VALLEY_FROM = 0.35f;

  private static final int[] VALLEY_STARTS = valleyStarts();

  private final float[] r = new float[LAGS_PX.length];

  /** Lowest value from {@link #VALLEY_STARTS} to each lag, itself included. */
  private final float[] valley = new float[LAGS_PX.length];

  private final int[] candidates = new int[LAGS_PX.length];

  /** First lag number of every octave and range at one pitch, and the end of the last. */
  record Ranges(List<Integer> octaves, List<Integer> ranges) {
    /** Copies the lists. */
    Ranges {
      octaves = List.copyOf(octaves);
      ranges = List.copyOf(ranges);
    }

    static Ranges at(double pitchUm) {
      return new Ranges(starts(PEAK_OCTAVES_UM, pitchUm), starts(RANGES_UM, pitchUm));
    }

    private static List<Integer> starts(double[] bordersUm, double pitchUm) {
      List<Integer> out = new ArrayList<>();
      for (double border : bordersUm) {
        int i = 0;
        while (i < LAGS_PX.length && LAGS_PX[i] * pitchUm < border) {
          i++;
        }
        out.add(i);
      }
      return out;
    }
  }

  private static float[] lagsPx() {
    float[] lags = new float[Level.totalLags()];
    int i = 0;
    for (Level l : Level.ALL) {
      for (int k = l.firstLag(); k <= l.lastLag(); k++) {
        lags[i++] = k * l.reduction();
      }
    }
    return lags;
  }

  private static int[] valleyStarts() {
    int[] starts = new int[LAGS_PX.length];
    for (int i = 1; i < starts.length; i++) {
      int from = starts[i - 1];
      while (LAGS_PX[from] < VALLEY_FROM * LAGS_PX[i]) {
        from++;
      }
      starts[i] = from;
    }
    return starts;
  }

  /** Number of lags. */
  static int size() {
    return LAGS_PX.length;
  }

  /** Lag number i in working px. */
  static float lagPx(int i) {
    return LAGS_PX[i];
  }

  /** Autocorrelation at lag number i, about -1 to 1. */
  float at(int i) {
    return r[i];
  }

  /**
   * Fills the curve from sums of products.
   *
   * <p>White noise adds to lag 0 only. The sum at lag 0 without noise is taken from the parabola
   * through lags 1 and 2, r(0) = (4 r(1) - r(2)) / 3, held between a quarter of the measured sum
   * and all of it.
   *
   * @param zero sum of squares per level
   * @param products sums per lag number
   * @param pixels number of working pixels in the window
   */
  void fill(double[] zero, float[] products, double pixels) {
    int i = 0;
    for (int l = 0; l < Level.ALL.length; l++) {
      Level level = Level.ALL[l];
      double n = pixels / (level.reduction() * (double) level.reduction());
      double norm = zero[l];
      if (l == 0) {
        double noiseFree = (4 * products[0] - products[1]) / 3;
        norm = Math.max(LEAST_SIGNAL * zero[0], Math.min(zero[0], noiseFree));
      }
      norm = Math.max(norm, 0.02 * n);
      for (int k = 0; k < level.lags(); k++, i++) {
        r[i] = norm <= 0 ? 0 : (float) Math.max(-1.2, Math.min(1.2, products[i] / norm));
      }
    }
    findValleys();
  }

  /** Minima of a window that only moves on: what can still become one waits in a queue. */
  private void findValleys() {
    int head = 0;
    int tail = 0;
    for (int i = 0; i < r.length; i++) {
      while (tail > head && r[candidates[tail - 1]] >= r[i]) {
        tail--;
      }
      candidates[tail++] = i;
      while (candidates[head] < VALLEY_STARTS[i]) {
        head++;
      }
      valley[i] = r[candidates[head]];
    }
  }

  /**
   * Rise of the highest local peak above the deepest valley before it, in an octave of lags.
   *
   * @return 0 (no peak) to about 2; NaN if the sampling has no lag in the octave
   */
  float peak(int octave, Ranges at) {
    int from = at.octaves().get(octave);
    int to = Math.min(r.length - 1, at.octaves().get(octave + 1));
    float best = 0;
    for (int i = Math.max(2, from); i < to; i++) {
      if (r[i] > r[i - 1] && r[i] >= r[i + 1]) {
        best = Math.max(best, rise(i));
      }
    }
    return Math.max(2, from) < to ? best : Float.NaN;
  }

  /**
   * Root mean square of the curve in a range of lags: how far the pattern persists; NaN if there is
   * no lag in it.
   */
  float persistence(int range, Ranges at) {
    int from = at.ranges().get(range);
    int to = at.ranges().get(range + 1);
    double sum = 0;
    for (int i = from; i < to; i++) {
      sum += r[i] * r[i];
    }
    return from < to ? (float) Math.sqrt(sum / (to - from)) : Float.NaN;
  }

  /**
   * Mean of the curve in a range of lags: near 1 along unbroken lines; NaN if there is no lag in
   * it.
   */
  float mean(int range, Ranges at) {
    int from = at.ranges().get(range);
    int to = at.ranges().get(range + 1);
    double sum = 0;
    for (int i = from; i < to; i++) {
      sum += r[i];
    }
    return from < to ? (float) (sum / (to - from)) : Float.NaN;
  }

  /**
   * The pattern's own period, whatever its size: the first peak that rises nearly as high as the
   * highest of all lags.
   *
   * @return a lag number, or -1 if the curve has no peak
   */
  int ownPeriod() {
    float most = 0;
    for (int i = 2; i + 1 < r.length; i++) {
      if (r[i] > r[i - 1] && r[i] >= r[i + 1]) {
        most = Math.max(most, rise(i));
      }
    }
    for (int i = 2; i + 1 < r.length; i++) {
      if (r[i] > r[i - 1] && r[i] >= r[i + 1] && rise(i) >= NEARLY * most && most > 0) {
        return i;
      }
    }
    return -1;
  }

  /** Height of a peak above the deepest valley before it. */
  float rise(int i) {
    return r[i] - valley[i];
  }

  /**
   * Mean of the curve at two, three and four times a lag, as far as it reaches: near the height of
   * the peak itself for a lattice, near zero for a chance repetition; NaN beyond half the reach.
   */
  float repeats(int i) {
    double sum = 0;
    int n = 0;
    for (int k = 2; k <= 4; k++) {
      int at = nearest(k * LAGS_PX[i]);
      if (at >= 0) {
        sum += Math.max(r[at], Math.max(r[Math.max(0, at - 1)], r[Math.min(r.length - 1, at + 1)]));
        n++;
      }
    }
    return n == 0 ? Float.NaN : (float) (sum / n);
  }

  /** The lag number nearest to a lag, -1 beyond the longest. */
  private static int nearest(float lagPx) {
    if (lagPx > LAGS_PX[LAGS_PX.length - 1]) {
      return -1;
    }
    int i = Arrays.binarySearch(LAGS_PX, lagPx);
    if (i < 0) {
      int above = -i - 1;
      i = above > 0 && LAGS_PX[above] - lagPx > lagPx - LAGS_PX[above - 1] ? above - 1 : above;
    }
    return i;
  }

  /** Lag at which the curve first falls below one half, um, as a base-2 logarithm. */
  float logHalfWidth(double pitchUm) {
    for (int i = 0; i < r.length; i++) {
      if (r[i] < 0.5f) {
        double before = i == 0 ? 0 : LAGS_PX[i - 1];
        double high = i == 0 ? 1 : r[i - 1];
        double t = high <= r[i] ? 0.5 : Math.min(1, (high - 0.5) / (high - r[i]));
        return (float) log2(Math.max(0.05, (before + t * (LAGS_PX[i] - before)) * pitchUm));
      }
    }
    return (float) log2(LAGS_PX[r.length - 1] * pitchUm);
  }

  private static double log2(double v) {
    return Math.log(v) / Math.log(2);
  }

  /** Persistence over the two middle ranges, for ordering the directions. */
  float order(Ranges at) {
    float a = persistence(1, at);
    float b = persistence(2, at);
    return (Float.isNaN(a) ? 0 : a) + (Float.isNaN(b) ? 0 : b);
  }
}
