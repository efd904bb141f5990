package org.diesurvey.features;

import org.diesurvey.tiles.TileGrid;

/** Features of one window size: from the pooled sums of a row of tiles to a block of columns. */
final class WindowFeatures {
  /** Mean square below which a band holds nothing but rounding; keeps logarithms finite. */
  private static final double FLOOR = 1e-8;

  private static final int EVEN = SumsBand.PLANES;
  private static final int EVEN_SQUARES = EVEN + Evenness.NAMES.length;
  private static final int TILES = EVEN_SQUARES + Evenness.NAMES.length;

  private final int columns;
  private final double pitchUm;
  private final LagCurve.Ranges ranges;
  private final ContrastLevels contrasts;
  private final LagCurve x = new LagCurve();
  private final LagCurve y = new LagCurve();
  private final float[] products = new float[LagCurve.size()];
  private final double[] zeros = new double[Level.ALL.length];

  WindowFeatures(TileGrid grid, ContrastLevels contrasts) {
    this.columns = grid.columns();
    this.pitchUm = grid.pitchUm();
    this.ranges = LagCurve.Ranges.at(pitchUm);
    this.contrasts = contrasts;
  }

  /**
   * Writes this window's features of a row of tiles.
   *
   * @param pooled sums over the windows: planes of {@link SumsBand}, then of {@link Evenness}
   * @param rows feature vectors, one after the other
   * @param column place of the first feature in a vector
   */
  void write(float[] pooled, float[] rows, int column) {
    int features = rows.length / columns;
    for (int c = 0; c < columns; c++) {
      for (int l = 0; l < zeros.length; l++) {
        zeros[l] = pooled[SumsBand.zero(l) * columns + c];
      }
      fill(x, pooled, SumsBand.alongX(0), c);
      fill(y, pooled, SumsBand.alongY(0), c);
      boolean xFirm = x.order(ranges) >= y.order(ranges);
      int at = curve(xFirm ? x : y, rows, c * features + column);
      at = curve(xFirm ? y : x, rows, at);
      surface(pooled, c, rows, at);
    }
  }

  private void fill(LagCurve curve, float[] pooled, int firstPlane, int c) {
    for (int i = 0; i < products.length; i++) {
      products[i] = pooled[(firstPlane + i) * columns + c];
    }
    curve.fill(zeros, products, pooled[c]);
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

  private void surface(float[] pooled, int c, float[] row, int start) {
    int at = start;
    double n = Math.max(1, pooled[c]);
    double contrast = ContrastLevels.log(pooled, columns, c);
    row[at++] = (float) contrast;
    row[at++] = (float) (contrast - contrasts.middle());
    row[at++] = (float) (contrast - contrasts.high());
    int bands = TextureSums.BAND_UM.length;
    double total = FLOOR;
    for (int b = 1; b < bands; b++) {
      total += pooled[TextureSums.bandPlane(b, 0) * columns + c] / n;
    }
    for (int b = 0; b < bands; b++) {
      double e = pooled[TextureSums.bandPlane(b, 0) * columns + c] / n;
      row[at++] = present(b) ? (float) Math.log(e / total + 1e-3) : Float.NaN;
    }
    for (int b = 0; b < bands; b++) {
      double e = pooled[TextureSums.bandPlane(b, 0) * columns + c] / n + FLOOR;
      double m4 = pooled[TextureSums.bandPlane(b, 2) * columns + c] / n;
      row[at++] = present(b) ? (float) Math.log(m4 / (e * e) + 0.5) : Float.NaN;
    }
    for (int b = 0; b < bands; b++) {
      double e = pooled[TextureSums.bandPlane(b, 0) * columns + c] / n + FLOOR;
      double m3 = pooled[TextureSums.bandPlane(b, 1) * columns + c] / n;
      float skew = (float) (m3 / (e * Math.sqrt(e)));
      row[at++] = present(b) ? Math.max(-3, Math.min(3, skew)) : Float.NaN;
    }
    for (int s = 0; s < TextureSums.GRADIENT_UM.length; s++) {
      double xx = pooled[TextureSums.gradientPlane(s, 0) * columns + c];
      double yy = pooled[TextureSums.gradientPlane(s, 1) * columns + c];
      double xy = pooled[TextureSums.gradientPlane(s, 2) * columns + c];
      double sum = xx + yy + FLOOR * n;
      row[at++] = (float) (Math.abs(xx - yy) / sum);
      row[at++] = (float) (2 * xy / sum);
    }
    double perArea = 100 / (n * pitchUm * pitchUm);
    for (int b = 0; b < TextureSums.SPOT_BANDS.length; b++) {
      for (int k = 0; k < TextureSums.SPOTS; k++) {
        double count = pooled[TextureSums.spotPlane(b, k) * columns + c] * perArea;
        row[at++] = present(TextureSums.SPOT_BANDS[b]) ? (float) Math.log(count + 0.3) : Float.NaN;
      }
    }
    double m = Math.max(1, pooled[TILES * columns + c]);
    for (int k = 0; k < Evenness.NAMES.length; k++) {
      double mean = pooled[(EVEN + k) * columns + c] / m;
      double variance = Math.max(0, pooled[(EVEN_SQUARES + k) * columns + c] / m - mean * mean);
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
