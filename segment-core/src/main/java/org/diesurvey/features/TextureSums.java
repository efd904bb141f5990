package org.diesurvey.features;

import java.util.Arrays;
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

  /** A wider one is formed on a reduced raster, which takes a quarter of the pixels, px. */
  private static final double MOST_SIGMA_PX = 2.4;

  /** Smaller rasters are not reduced any more, px. */
  private static final int LEAST_SIDE_PX = 8;

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

  /** Working px per px of the raster that a band is formed on: as coarse as its filters allow. */
  static int reduction(int band, TileGrid grid) {
    double sigma = BAND_UM[band] / grid.pitchUm();
    int reduction = 1;
    while (sigma >= MOST_SIGMA_PX
        && LevelPart.width(grid, reduction) >= LEAST_SIDE_PX
        && LevelPart.height(grid, reduction) >= LEAST_SIDE_PX) {
      reduction *= 2;
      sigma /= 2;
    }
    return reduction;
  }

  /**
   * Sums the bands that are formed on rasters of this part's reduction, and at full size what needs
   * no filter.
   *
   * @param tiles whose pixels lie in the part
   * @param sums plane 0 pixel count, 1 sum of grey, 2 sum of squares, then bands, gradients, spots
   */
  static void sum(LevelPart part, TileGrid grid, LevelPart.Tiles tiles, SumsBand sums) {
    if (part.reduction() == 1) {
      plain(part, grid, tiles, sums);
    }
    for (int band = 0; band < BAND_UM.length; band++) {
      double sigma = BAND_UM[band] / grid.pitchUm() / part.reduction();
      if (reduction(band, grid) == part.reduction() && sigma >= LEAST_SIGMA_PX) {
        band(part, sigma, band, grid, tiles, sums);
      }
    }
  }

  private static void plain(LevelPart part, TileGrid grid, LevelPart.Tiles tiles, SumsBand sums) {
    float[] count = sums.plane(0);
    float[] mean = sums.plane(1);
    float[] squares = sums.plane(2);
    float[] a = part.raster().array();
    int w = part.raster().width();
    part.each(
        grid,
        tiles,
        sums,
        (at, left, right, top, bottom) -> {
          float sum = 0;
          float square = 0;
          for (int y = top; y < bottom; y++) {
            for (int i = y * w + left; i < y * w + right; i++) {
              sum += a[i];
              square += a[i] * a[i];
            }
          }
          count[at] = (bottom - top) * (right - left);
          mean[at] = sum;
          squares[at] = square;
        });
  }

  private static void band(
      LevelPart part, double sigma, int band, TileGrid grid, LevelPart.Tiles tiles, SumsBand sums) {
    GrayRaster g = part.raster();
    GrayRaster inner = sigma < 0.6 ? g : ImageFilters.gaussian(g, sigma);
    GrayRaster outer = ImageFilters.gaussian(g, 2 * sigma);
    float[] d = outer.array();
    for (int i = 0; i < d.length; i++) {
      d[i] = inner.array()[i] - d[i];
    }
    for (int gradient = 0; gradient < GRADIENT_UM.length; gradient++) {
      if (gradientBand(gradient) == band) {
        gradients(inner, part, grid, tiles, gradient, sums);
      }
    }
    moments(d, part, grid, tiles, band, sums);
    int spotBand = Arrays.binarySearch(SPOT_BANDS, band);
    if (spotBand >= 0) {
      spots(d, part, grid, tiles, spotBand, sums);
    }
  }

  private static void moments(
      float[] d, LevelPart part, TileGrid grid, LevelPart.Tiles tiles, int band, SumsBand sums) {
    int w = part.raster().width();
    float unit = part.reduction() * part.reduction();
    float[] second = sums.plane(bandPlane(band, 0));
    float[] third = sums.plane(bandPlane(band, 1));
    float[] fourth = sums.plane(bandPlane(band, 2));
    part.each(
        grid,
        tiles,
        sums,
        (at, left, right, top, bottom) -> {
          float s2 = 0;
          float s3 = 0;
          float s4 = 0;
          for (int y = top; y < bottom; y++) {
            for (int i = y * w + left; i < y * w + right; i++) {
              float v = d[i];
              float q = v * v;
              s2 += q;
              s3 += q * v;
              s4 += q * q;
            }
          }
          second[at] = s2 * unit;
          third[at] = s3 * unit;
          fourth[at] = s4 * unit;
        });
  }

  private static void spots(
      float[] d,
      LevelPart part,
      TileGrid grid,
      LevelPart.Tiles tiles,
      int spotBand,
      SumsBand sums) {
    int w = part.raster().width();
    int h = part.raster().height();
    float[] bright = sums.plane(spotPlane(spotBand, 0));
    float[] dark = sums.plane(spotPlane(spotBand, 1));
    part.each(
        grid,
        tiles,
        sums,
        (at, left, right, top, bottom) -> {
          int from = Math.max(1, left);
          int to = Math.min(w - 1, right);
          int peaks = 0;
          int pits = 0;
          for (int y = Math.max(1, top); y < Math.min(h - 1, bottom); y++) {
            for (int i = y * w + from; i < y * w + to; i++) {
              float v = d[i];
              if (v > 0) {
                peaks += isPeak(d, i, w, v, 1) ? 1 : 0;
              } else {
                pits += isPeak(d, i, w, v, -1) ? 1 : 0;
              }
            }
          }
          bright[at] = peaks;
          dark[at] = pits;
        });
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
      GrayRaster smooth,
      LevelPart part,
      TileGrid grid,
      LevelPart.Tiles tiles,
      int gradient,
      SumsBand sums) {
    float[] a = smooth.array();
    int w = smooth.width();
    int h = smooth.height();
    float unit = part.reduction() * part.reduction();
    float[] across = sums.plane(gradientPlane(gradient, 0));
    float[] down = sums.plane(gradientPlane(gradient, 1));
    float[] both = sums.plane(gradientPlane(gradient, 2));
    part.each(
        grid,
        tiles,
        sums,
        (at, left, right, top, bottom) -> {
          int from = Math.max(1, left);
          int to = Math.min(w - 1, right);
          float xx = 0;
          float yy = 0;
          float xy = 0;
          for (int y = Math.max(1, top); y < Math.min(h - 1, bottom); y++) {
            for (int i = y * w + from; i < y * w + to; i++) {
              float gx = a[i + 1] - a[i - 1];
              float gy = a[i + w] - a[i - w];
              xx += gx * gx;
              yy += gy * gy;
              xy += Math.abs(gx * gy);
            }
          }
          across[at] = xx * unit;
          down[at] = yy * unit;
          both[at] = xy * unit;
        });
  }
}
