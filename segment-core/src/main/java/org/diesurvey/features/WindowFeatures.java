package org.diesurvey.features;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.diesurvey.tiles.TileGrid;

/**
 * Features of one window size: reads pooled sums, writes a block of columns of the feature table.
 */
final class WindowFeatures {
  /** Mean square below which a band holds nothing but rounding; keeps logarithms finite. */
  private static final double FLOOR = 1e-8;

  /** Share of the tiles below the contrast of what the die shows best (own choice). */
  private static final double HIGH = 0.9;

  private final TileGrid grid;
  private final double pitchUm;
  private final LagCurve.Ranges ranges;
  private final float[][] texture;
  private final float[][] zero;
  private final float[][] alongX;
  private final float[][] alongY;
  private final float[][] even;
  private final float[][] evenSquares;
  private final float[] tiles;
  private final double dieContrast;
  private final double highContrast;

  WindowFeatures(TileStatistics s, float[][] even, float[][] evenSquares, int reach) {
    this.grid = s.grid();
    this.pitchUm = grid.pitchUm();
    this.ranges = LagCurve.Ranges.at(pitchUm);
    this.texture = WindowSums.of(s.texture(), grid, reach);
    float[][] z = new float[Level.ALL.length][];
    for (int l = 0; l < z.length; l++) {
      z[l] = s.zero(l);
    }
    this.zero = WindowSums.of(z, grid, reach);
    this.alongX = WindowSums.of(allLags(s, true), grid, reach);
    this.alongY = WindowSums.of(allLags(s, false), grid, reach);
    this.even = WindowSums.of(even, grid, reach);
    this.evenSquares = WindowSums.of(evenSquares, grid, reach);
    float[] ones = new float[grid.count()];
    for (int t = 0; t < ones.length; t++) {
      ones[t] = s.texture()[0][t] > 0 ? 1 : 0;
    }
    this.tiles = WindowSums.of(new float[][] {ones}, grid, reach)[0];
    double[] contrasts = sortedContrasts();
    this.dieContrast = contrasts[contrasts.length / 2];
    this.highContrast = contrasts[(int) (HIGH * (contrasts.length - 1))];
  }

  private static float[][] allLags(TileStatistics s, boolean x) {
    float[][] out = new float[Level.totalLags()][];
    int i = 0;
    for (int l = 0; l < Level.ALL.length; l++) {
      for (float[] plane : x ? s.alongX(l) : s.alongY(l)) {
        out[i++] = plane;
      }
    }
    return out;
  }

  private double[] sortedContrasts() {
    double[] c = new double[grid.count()];
    for (int t = 0; t < c.length; t++) {
      c[t] = logContrast(t);
    }
    Arrays.sort(c);
    return c;
  }

  private double logContrast(int t) {
    double n = Math.max(1, texture[0][t]);
    double energy = 0;
    for (int b = 1; b <= 3; b++) {
      energy += texture[TextureSums.bandPlane(b, 0)][t];
    }
    return 0.5 * Math.log(energy / n + FLOOR);
  }

  /** Writes this window's features for all tiles, starting at a column. */
  void write(float[][] rows, int column) {
    IntStream.range(0, grid.rows())
        .parallel()
        .forEach(
            r -> {
              LagCurve x = new LagCurve();
              LagCurve y = new LagCurve();
              float[] products = new float[LagCurve.size()];
              double[] zeros = new double[Level.ALL.length];
              for (int c = 0; c < grid.columns(); c++) {
                int t = r * grid.columns() + c;
                for (int l = 0; l < zeros.length; l++) {
                  zeros[l] = zero[l][t];
                }
                fill(x, alongX, t, zeros, products);
                fill(y, alongY, t, zeros, products);
                boolean xFirm = x.order(ranges) >= y.order(ranges);
                int at = curve(xFirm ? x : y, rows[t], column);
                at = curve(xFirm ? y : x, rows[t], at);
                surface(t, rows[t], at);
              }
            });
  }

  private void fill(LagCurve curve, float[][] planes, int t, double[] zeros, float[] products) {
    for (int i = 0; i < products.length; i++) {
      products[i] = planes[i][t];
    }
    curve.fill(zeros, products, texture[0][t]);
  }

  private int curve(LagCurve curve, float[] row, int at) {
    for (int o = 0; o + 1 < LagCurve.PEAK_OCTAVES_UM.length; o++) {
      row[at++] = curve.peak(o, ranges);
    }
    for (int k = 0; k + 1 < LagCurve.RANGES_UM.length; k++) {
      row[at++] = curve.persistence(k, ranges);
    }
    for (int k = 0; k + 1 < LagCurve.RANGES_UM.length; k++) {
      row[at++] = curve.mean(k, ranges);
    }
    row[at++] = curve.logHalfWidth(pitchUm);
    int own = curve.ownPeriod();
    row[at++] = own < 0 ? 0 : curve.rise(own);
    row[at++] = own < 0 ? Float.NaN : curve.repeats(own);
    row[at++] = own < 0 ? Float.NaN : log2(LagCurve.lagPx(own) * pitchUm);
    // Filled in once the rows of the die are known.
    row[at++] = Float.NaN;
    return at;
  }

  private void surface(int t, float[] row, int start) {
    int at = start;
    double n = Math.max(1, texture[0][t]);
    double contrast = logContrast(t);
    row[at++] = (float) contrast;
    row[at++] = (float) (contrast - dieContrast);
    row[at++] = (float) (contrast - highContrast);
    int bands = TextureSums.BAND_UM.length;
    double total = FLOOR;
    for (int b = 1; b < bands; b++) {
      total += texture[TextureSums.bandPlane(b, 0)][t] / n;
    }
    for (int b = 0; b < bands; b++) {
      double e = texture[TextureSums.bandPlane(b, 0)][t] / n;
      row[at++] = present(b) ? (float) Math.log(e / total + 1e-3) : Float.NaN;
    }
    for (int b = 0; b < bands; b++) {
      double e = texture[TextureSums.bandPlane(b, 0)][t] / n + FLOOR;
      double m4 = texture[TextureSums.bandPlane(b, 2)][t] / n;
      row[at++] = present(b) ? (float) Math.log(m4 / (e * e) + 0.5) : Float.NaN;
    }
    for (int b = 0; b < bands; b++) {
      double e = texture[TextureSums.bandPlane(b, 0)][t] / n + FLOOR;
      double m3 = texture[TextureSums.bandPlane(b, 1)][t] / n;
      float skew = (float) (m3 / (e * Math.sqrt(e)));
      row[at++] = present(b) ? Math.max(-3, Math.min(3, skew)) : Float.NaN;
    }
    for (int s = 0; s < TextureSums.GRADIENT_UM.length; s++) {
      double xx = texture[TextureSums.gradientPlane(s, 0)][t];
      double yy = texture[TextureSums.gradientPlane(s, 1)][t];
      double xy = texture[TextureSums.gradientPlane(s, 2)][t];
      double sum = xx + yy + FLOOR * n;
      row[at++] = (float) (Math.abs(xx - yy) / sum);
      row[at++] = (float) (2 * xy / sum);
    }
    double perArea = 100 / (n * pitchUm * pitchUm);
    for (int b = 0; b < TextureSums.SPOT_BANDS.length; b++) {
      for (int k = 0; k < TextureSums.SPOTS; k++) {
        double count = texture[TextureSums.spotPlane(b, k)][t] * perArea;
        row[at++] = present(TextureSums.SPOT_BANDS[b]) ? (float) Math.log(count + 0.3) : Float.NaN;
      }
    }
    double m = Math.max(1, tiles[t]);
    for (int k = 0; k < even.length; k++) {
      double mean = even[k][t] / m;
      double variance = Math.max(0, evenSquares[k][t] / m - mean * mean);
      row[at++] = (float) (0.5 * Math.log(variance + 1e-4));
    }
  }

  private static float log2(double v) {
    return (float) (Math.log(v) / Math.log(2));
  }

  private boolean present(int band) {
    return TextureSums.bandPresent(band, pitchUm);
  }
}
