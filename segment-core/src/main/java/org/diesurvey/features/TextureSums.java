package org.diesurvey.features;

import org.diesurvey.raster.GrayRaster;
import org.diesurvey.tiles.TileGrid;
import org.diesurvey.vision.ImageFilters;

/**
 * Sums per tile of what a surface looks like at several physical scales: moments of band-passed
 * grey, gradients, and counts of bright and dark spots. A band finer than the sampling is left at
 * zero and marked absent.
 */
final class TextureSums {
  /** Inner scales of the band-pass filters, um; the outer scale is twice the inner. */
  static final double[] BAND_UM = {0.5, 1, 2, 4, 8};

  /** Planes per band: sum of squares, cubes, fourth powers. */
  static final int MOMENTS = 3;

  /** Scales of the gradients, um. */
  static final double[] GRADIENT_UM = {0.7, 2.5};

  /** Planes per gradient scale: gx squared, gy squared, |gx gy|. */
  static final int GRADIENTS = 3;

  /** Bands in which spots are counted: indices into BAND_UM. */
  static final int[] SPOT_BANDS = {1, 2, 3};

  /** Planes per spot band: bright, dark. */
  static final int SPOTS = 2;

  /** A filter narrower than this, in px, is not formed: the sampling does not carry it. */
  static final double LEAST_SIGMA_PX = 0.45;

  private TextureSums() {}

  static int planes() {
    return 3
        + BAND_UM.length * MOMENTS
        + GRADIENT_UM.length * GRADIENTS
        + SPOT_BANDS.length * SPOTS;
  }

  static int bandPlane(int band, int moment) {
    return 3 + band * MOMENTS + moment;
  }

  static int gradientPlane(int scale, int which) {
    return 3 + BAND_UM.length * MOMENTS + scale * GRADIENTS + which;
  }

  static int spotPlane(int spotBand, int which) {
    return 3 + BAND_UM.length * MOMENTS + GRADIENT_UM.length * GRADIENTS + spotBand * SPOTS + which;
  }

  /** Whether the sampling carries this band. */
  static boolean bandPresent(int band, double pitchUm) {
    return BAND_UM[band] / pitchUm >= LEAST_SIGMA_PX;
  }

  /**
   * Fills the planes for the tile rows that lie in a band of the upright raster.
   *
   * @param grey the band, with enough rows above and below for the filters
   * @param firstRow row of the upright raster at which grey starts
   * @param planes plane 0 pixel count, 1 sum of grey, 2 sum of squares, then bands, gradients,
   *     spots
   */
  static void sum(
      GrayRaster grey, int firstRow, TileGrid grid, int tileRow, int tileRowEnd, float[][] planes) {
    plain(grey, firstRow, grid, tileRow, tileRowEnd, planes);
    double pitch = grid.pitchUm();
    // Coarse bands are formed on a reduced raster: a quarter of the pixels each time the scale
    // allows.
    int reduction = 1;
    GrayRaster g = grey;
    int first = firstRow;
    for (int band = 0; band < BAND_UM.length; band++) {
      double sigma = BAND_UM[band] / pitch / reduction;
      while (sigma >= 2.4 && g.height() >= 8 && g.width() >= 8) {
        int skip = Math.floorMod(-first, 2);
        g = halve(g, skip);
        first = (first + skip) / 2;
        reduction *= 2;
        sigma /= 2;
      }
      if (sigma < LEAST_SIGMA_PX) {
        continue;
      }
      band(g, first, reduction, sigma, band, grid, tileRow, tileRowEnd, planes);
    }
  }

  private static GrayRaster halve(GrayRaster g, int skipRows) {
    int w = g.width() / 2;
    int h = (g.height() - skipRows) / 2;
    GrayRaster out = new GrayRaster(w, h);
    float[] a = g.array();
    float[] o = out.array();
    for (int y = 0; y < h; y++) {
      int up = (2 * y + skipRows) * g.width();
      int down = up + g.width();
      for (int x = 0; x < w; x++) {
        o[y * w + x] =
            0.25f * (a[up + 2 * x] + a[up + 2 * x + 1] + a[down + 2 * x] + a[down + 2 * x + 1]);
      }
    }
    return out;
  }

  private static void plain(
      GrayRaster grey, int firstRow, TileGrid grid, int tileRow, int tileRowEnd, float[][] planes) {
    Spans s = new Spans(grid, 1, grey.width(), grid.height(), firstRow);
    float[] a = grey.array();
    for (int r = tileRow; r < tileRowEnd; r++) {
      for (int c = 0; c < s.columns(); c++) {
        float n = 0;
        float sum = 0;
        float square = 0;
        int right = s.left(c + 1);
        for (int y = s.top(r), bottom = s.top(r + 1); y < bottom; y++) {
          for (int x = s.left(c); x < right; x++) {
            float v = a[y * grey.width() + x];
            n++;
            sum += v;
            square += v * v;
          }
        }
        int at = r * s.columns() + c;
        planes[0][at] = n;
        planes[1][at] = sum;
        planes[2][at] = square;
      }
    }
  }

  private static void band(
      GrayRaster g,
      int first,
      int reduction,
      double sigma,
      int band,
      TileGrid grid,
      int tileRow,
      int tileRowEnd,
      float[][] planes) {
    GrayRaster inner = sigma < 0.6 ? g : ImageFilters.gaussian(g, sigma);
    GrayRaster outer = ImageFilters.gaussian(g, 2 * sigma);
    int w = g.width();
    float[] d = new float[inner.array().length];
    for (int i = 0; i < d.length; i++) {
      d[i] = inner.array()[i] - outer.array()[i];
    }
    Spans s = new Spans(grid, reduction, w, grid.height() / reduction, first);
    float unit = reduction * reduction;
    for (int gradient = 0; gradient < GRADIENT_UM.length; gradient++) {
      if (gradientBand(gradient) == band) {
        gradients(inner.array(), w, g.height(), s, tileRow, tileRowEnd, unit, gradient, planes);
      }
    }
    int spotBand = java.util.Arrays.binarySearch(SPOT_BANDS, band);
    for (int r = tileRow; r < tileRowEnd; r++) {
      for (int c = 0; c < s.columns(); c++) {
        float s2 = 0;
        float s3 = 0;
        float s4 = 0;
        int bright = 0;
        int dark = 0;
        int right = s.left(c + 1);
        for (int y = s.top(r), bottom = s.top(r + 1); y < bottom; y++) {
          for (int x = s.left(c); x < right; x++) {
            int i = y * w + x;
            float v = d[i];
            float q = v * v;
            s2 += q;
            s3 += q * v;
            s4 += q * q;
            if (spotBand >= 0 && x > 0 && y > 0 && x < w - 1 && y < g.height() - 1) {
              if (v > 0) {
                bright += isPeak(d, i, w, v, 1) ? 1 : 0;
              } else {
                dark += isPeak(d, i, w, v, -1) ? 1 : 0;
              }
            }
          }
        }
        int at = r * s.columns() + c;
        planes[bandPlane(band, 0)][at] = s2 * unit;
        planes[bandPlane(band, 1)][at] = s3 * unit;
        planes[bandPlane(band, 2)][at] = s4 * unit;
        if (spotBand >= 0) {
          planes[spotPlane(spotBand, 0)][at] = bright;
          planes[spotPlane(spotBand, 1)][at] = dark;
        }
      }
    }
  }

  /** The band whose inner blur serves a gradient scale. */
  private static int gradientBand(int gradient) {
    return gradient == 0 ? 1 : 2;
  }

  private static boolean isPeak(float[] d, int i, int w, float v, int sign) {
    return sign * v > sign * d[i - 1]
        && sign * v >= sign * d[i + 1]
        && sign * v > sign * d[i - w]
        && sign * v >= sign * d[i + w];
  }

  private static void gradients(
      float[] a,
      int w,
      int h,
      Spans s,
      int tileRow,
      int tileRowEnd,
      float unit,
      int gradient,
      float[][] planes) {
    for (int r = tileRow; r < tileRowEnd; r++) {
      int top = Math.max(1, s.top(r));
      int bottom = Math.min(h - 1, s.top(r + 1));
      for (int c = 0; c < s.columns(); c++) {
        int left = Math.max(1, s.left(c));
        int right = Math.min(w - 1, s.left(c + 1));
        float xx = 0;
        float yy = 0;
        float xy = 0;
        for (int y = top; y < bottom; y++) {
          for (int x = left; x < right; x++) {
            int i = y * w + x;
            float gx = a[i + 1] - a[i - 1];
            float gy = a[i + w] - a[i - w];
            xx += gx * gx;
            yy += gy * gy;
            xy += Math.abs(gx * gy);
          }
        }
        int at = r * s.columns() + c;
        planes[gradientPlane(gradient, 0)][at] = xx * unit;
        planes[gradientPlane(gradient, 1)][at] = yy * unit;
        planes[gradientPlane(gradient, 2)][at] = xy * unit;
      }
    }
  }

  /** Pixel borders of tiles in a band that starts at some row. */
  private static final class Spans {
    private final int[] lefts;
    private final int[] tops;

    Spans(TileGrid grid, int reduction, int width, int height, int firstRow) {
      lefts = new int[grid.columns() + 1];
      for (int c = 0; c < lefts.length; c++) {
        lefts[c] = grid.start(c, reduction, width);
      }
      tops = new int[grid.rows() + 1];
      for (int r = 0; r < tops.length; r++) {
        tops[r] = grid.start(r, reduction, height) - firstRow;
      }
    }

    int columns() {
      return lefts.length - 1;
    }

    int left(int c) {
      return lefts[c];
    }

    int top(int r) {
      return tops[r];
    }
  }
}
