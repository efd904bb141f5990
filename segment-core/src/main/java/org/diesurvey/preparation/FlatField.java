package org.diesurvey.preparation;

import java.util.Arrays;
import java.util.Locale;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.Supported;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.photo.PhotoInfo;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.raster.PixelRect;
import org.diesurvey.vision.ImageFilters;

/**
 * The light over the camera's field, from a photograph of an empty field under the same light. It
 * is smoothed, so that its noise and dust do not enter the die's picture. Division by it is exact
 * for cameras whose levels are proportional to the light or to a power of it.
 */
@Supported
public final class FlatField {
  /** Cells along the shorter side. */
  private static final int CELLS = 64;

  /** Blur of the cell means, cells: a dust grain of one cell keeps a twentieth of its depth. */
  private static final double BLUR_CELLS = 2;

  /** Level from which a pixel counts as saturated. */
  private static final float SATURATED = 0.996f;

  /** Largest share of saturated pixels. */
  private static final double MOST_SATURATED = 0.002;

  /** Darkest mean level: below it division amplifies the camera's offset. */
  private static final double LEAST_LEVEL = 0.05;

  /** Largest median scatter in a cell, over its mean: camera noise stays below it, layout not. */
  private static final double MOST_GRAIN = 0.06;

  /** Largest root mean square departure of cells from the smooth light, over the light. */
  private static final double MOST_STRUCTURE = 0.03;

  /** Largest ratio of brightest to darkest place. */
  private static final double MOST_SPAN = 4;

  private final PhotoInfo info;
  private final double cellPx;
  private final GrayRaster light;
  private final double mean;

  private FlatField(PhotoInfo info, double cellPx, GrayRaster light, double mean) {
    this.info = info;
    this.cellPx = cellPx;
    this.light = light;
    this.mean = mean;
  }

  /**
   * Reads an empty field once.
   *
   * @throws DieInputException with {@link Reason#FLAT_FIELD_UNUSABLE} if it is saturated, too dark,
   *     too uneven, or shows structure
   */
  public static FlatField of(DiePhoto photo) {
    PixelSource p = photo.proportional();
    String file = photo.info().fileName();
    int cell = Math.max(4, Math.min(p.width(), p.height()) / CELLS);
    int w = p.width() / cell;
    int h = p.height() / cell;
    float[] means = new float[w * h];
    double[] grains = new double[w * h];
    long saturated = 0;
    float[] band = new float[p.width() * cell];
    for (int r = 0; r < h; r++) {
      p.readGray(new PixelRect(0, r * cell, p.width(), cell), band);
      for (float g : band) {
        saturated += g >= SATURATED ? 1 : 0;
      }
      for (int c = 0; c < w; c++) {
        double sum = 0;
        double square = 0;
        for (int y = 0; y < cell; y++) {
          for (int x = 0; x < cell; x++) {
            float g = band[y * p.width() + c * cell + x];
            sum += g;
            square += g * g;
          }
        }
        double n = (double) cell * cell;
        means[r * w + c] = (float) (sum / n);
        grains[r * w + c] =
            Math.sqrt(Math.max(0, square / n - sum / n * (sum / n))) / Math.max(1e-3, sum / n);
      }
    }
    double share = saturated / ((double) p.width() * h * cell);
    if (share > MOST_SATURATED) {
      throw unusable(
          file,
          String.format(Locale.ROOT, "%.1f %% of its pixels are saturated", 100 * share),
          "expose it darker");
    }
    GrayRaster smooth = ImageFilters.gaussian(GrayRaster.over(w, h, means), BLUR_CELLS);
    return new FlatField(photo.info(), cell, smooth, checked(file, means, grains, smooth));
  }

  private static double checked(String file, float[] means, double[] grains, GrayRaster smooth) {
    double mean = 0;
    double departure = 0;
    float low = Float.MAX_VALUE;
    float high = 0;
    for (int i = 0; i < means.length; i++) {
      float s = smooth.array()[i];
      mean += s / means.length;
      departure += Math.pow(means[i] / Math.max(1e-3f, s) - 1, 2) / means.length;
      low = Math.min(low, s);
      high = Math.max(high, s);
    }
    if (mean < LEAST_LEVEL) {
      throw unusable(
          file, String.format(Locale.ROOT, "its mean level is %.1f %%", 100 * mean), "expose it");
    }
    double[] sorted = grains.clone();
    Arrays.sort(sorted);
    if (sorted[sorted.length / 2] > MOST_GRAIN || Math.sqrt(departure) > MOST_STRUCTURE) {
      throw unusable(
          file, "it shows structure, not an empty field", "move to an empty, clean place");
    }
    if (high > MOST_SPAN * low) {
      throw unusable(
          file,
          String.format(Locale.ROOT, "its brightest place has %.1f times the darkest", high / low),
          "centre the lamp");
    }
    return mean;
  }

  private static DieInputException unusable(String file, String why, String remedy) {
    return new DieInputException(
        Reason.FLAT_FIELD_UNUSABLE,
        file + ": no flat field, because " + why + ": " + remedy + " and photograph it again.");
  }

  /**
   * Refuses a photograph that was not taken with the same camera settings.
   *
   * @throws DieInputException with {@link Reason#FLAT_FIELD_UNUSABLE}
   */
  public void requireFits(PhotoInfo photo) {
    if (photo.widthPx() != info.widthPx()
        || photo.heightPx() != info.heightPx()
        || photo.bitsPerSample() != info.bitsPerSample()) {
      throw new DieInputException(
          Reason.FLAT_FIELD_UNUSABLE,
          String.format(
              Locale.ROOT,
              "%s has %d x %d px of %d bit, but the flat field %s has %d x %d px of %d bit:"
                  + " photograph the empty field with the same camera settings.",
              photo.fileName(),
              photo.widthPx(),
              photo.heightPx(),
              photo.bitsPerSample(),
              info.fileName(),
              info.widthPx(),
              info.heightPx(),
              info.bitsPerSample()));
    }
  }

  /** What brings a place of the photograph to mean light; bilinear between the cells' middles. */
  double gain(double xPx, double yPx) {
    double x = Math.max(0, Math.min(light.width() - 1.0, xPx / cellPx - 0.5));
    double y = Math.max(0, Math.min(light.height() - 1.0, yPx / cellPx - 0.5));
    int c = Math.min((int) x, Math.max(0, light.width() - 2));
    int r = Math.min((int) y, Math.max(0, light.height() - 2));
    int right = Math.min(c + 1, light.width() - 1);
    int below = Math.min(r + 1, light.height() - 1);
    double fx = x - c;
    double fy = y - r;
    double upper = (1 - fx) * light.get(c, r) + fx * light.get(right, r);
    double lower = (1 - fx) * light.get(c, below) + fx * light.get(right, below);
    return mean / ((1 - fy) * upper + fy * lower);
  }

  /** Name and SHA-256 of the file. */
  public PhotoInfo info() {
    return info;
  }

  /** What is done with it. */
  PreparationStep step() {
    float low = Float.MAX_VALUE;
    float high = 0;
    for (float v : light.array()) {
      low = Math.min(low, v);
      high = Math.max(high, v);
    }
    return PreparationStep.of(
            PreparationStep.Kind.FLAT_FIELD,
            String.format(
                Locale.ROOT,
                "Light divided out by the photograph of an empty field, %s; brightest over darkest"
                    + " %.2f over the photograph.",
                info.fileName(),
                high / low))
        .with("brightest_over_darkest", high / low);
  }
}
