package org.diesurvey.features;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Dominant periods of a region, from the autocorrelation pooled over all its tiles: the first clear
 * peak along each axis, refined by its multiples.
 */
public final class DominantPeriods {
  /** Rise over the valley before it that makes a peak clear. */
  private static final double CLEAR_RISE = 0.12;

  /** Rise that lets a multiple take part in the refinement. */
  private static final double MULTIPLE_RISE = 0.05;

  /** Shortest period that the sampling shows dependably, px (Nyquist is 2). */
  private static final double LEAST_PX = 3;

  private DominantPeriods() {}

  /**
   * One period.
   *
   * @param lengthPx px of the upright raster
   * @param uncertaintyPx standard uncertainty, px
   * @param alongX whether the pattern repeats along the rows, else along the columns
   * @param strength height of the first peak above the valley before it, halved, 0 to 1
   */
  public record Found(double lengthPx, double uncertaintyPx, boolean alongX, double strength) {}

  static List<Found> of(TileStatistics s, int[] tiles) {
    double[] sums = pooled(s, tiles);
    double[] zero = Arrays.copyOfRange(sums, SumsBand.zero(0), SumsBand.zero(Level.ALL.length));
    double pixels = sums[0];
    List<Found> out = new ArrayList<>();
    for (boolean x : new boolean[] {true, false}) {
      float[] products = new float[LagCurve.size()];
      for (int i = 0; i < products.length; i++) {
        products[i] = (float) sums[x ? SumsBand.alongX(i) : SumsBand.alongY(i)];
      }
      LagCurve curve = new LagCurve();
      curve.fill(zero, products, pixels);
      Found f = first(curve, x);
      if (f != null) {
        out.add(f);
      }
    }
    out.sort((a, b) -> Double.compare(b.strength(), a.strength()));
    return out;
  }

  /** Sums over tiles, one for each plane. */
  private static double[] pooled(TileStatistics s, int[] tiles) {
    int columns = s.grid().columns();
    double[] sums = new double[SumsBand.PLANES];
    float[] row = new float[SumsBand.PLANES * columns];
    int held = -1;
    for (int t : tiles) {
      if (t / columns != held) {
        held = t / columns;
        s.row(held, SumsBand.PLANES, row);
      }
      for (int p = 0; p < sums.length; p++) {
        sums[p] += row[p * columns + t % columns];
      }
    }
    return sums;
  }

  private static Found first(LagCurve curve, boolean alongX) {
    for (int i = 2; i + 1 < LagCurve.size(); i++) {
      if (LagCurve.lagPx(i) < LEAST_PX || !isPeak(curve, i)) {
        continue;
      }
      double rise = rise(curve, i);
      if (rise >= CLEAR_RISE) {
        return refine(curve, i, alongX, Math.min(1, rise / 2));
      }
    }
    return null;
  }

  private static boolean isPeak(LagCurve c, int i) {
    return c.at(i) > c.at(i - 1) && c.at(i) >= c.at(i + 1);
  }

  private static double rise(LagCurve c, int i) {
    double low = c.at(i);
    for (int j = i - 1; j >= 0 && LagCurve.lagPx(j) >= 0.35f * LagCurve.lagPx(i); j--) {
      low = Math.min(low, c.at(j));
    }
    return c.at(i) - low;
  }

  private static double place(LagCurve c, int i) {
    double a = c.at(i - 1);
    double b = c.at(i);
    double d = c.at(i + 1);
    double bend = a - 2 * b + d;
    double shift = bend >= 0 ? 0 : 0.5 * (a - d) / bend;
    return LagCurve.lagPx(i) + shift * (LagCurve.lagPx(i + 1) - LagCurve.lagPx(i));
  }

  private static Found refine(LagCurve curve, int at, boolean alongX, double strength) {
    double period = place(curve, at);
    double weight = 1;
    double sum = period;
    double spread = 0;
    int order = 1;
    for (int i = at + 1; i + 1 < LagCurve.size(); i++) {
      // Across the seam of two levels the curve changes its sampling and its scale.
      if (level(i - 1) != level(i + 1) || !isPeak(curve, i) || rise(curve, i) < MULTIPLE_RISE) {
        continue;
      }
      double p = place(curve, i);
      int k = (int) Math.rint(p / period);
      boolean next = k == order + 1 || k == order + 2;
      if (next && Math.abs(p / k - period) < 0.35 / k * Math.min(period, 4)) {
        // Least squares of p = k x period; a place is as uncertain as its lags are far apart.
        double w = 1 / square(LagCurve.lagPx(i) - LagCurve.lagPx(i - 1));
        spread += Math.abs(p / k - period);
        sum += w * k * p;
        weight += w * k * k;
        period = sum / weight;
        order = k;
      }
    }
    // A peak is placed to about a quarter pixel; its multiples divide that.
    double u = Math.max(0.25 / order, order > 1 ? spread / order : 0.25);
    return new Found(period, u, alongX, strength);
  }

  private static double square(double v) {
    return v * v;
  }

  /** Level that lag number i belongs to. */
  private static int level(int i) {
    int at = 0;
    int end = Level.ALL[0].lags();
    while (i >= end) {
      end += Level.ALL[++at].lags();
    }
    return at;
  }
}
