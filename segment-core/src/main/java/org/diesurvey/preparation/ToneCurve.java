package org.diesurvey.preparation;

import java.io.IOException;
import java.util.Locale;
import java.util.Optional;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.raster.PixelRect;

/**
 * Brings the middle of the greys of a die that is very dark or very bright as a whole back to where
 * photographs have it: cameras and editors apply powers of the light that differ by a factor of
 * four. Dies of usual brightness are left alone; those that are brighter than usual but not far are
 * told, since nothing says whether they were bent or are bright.
 *
 * @param exponent of the grey, 0 to 1
 * @param median grey of the die before
 */
record ToneCurve(double exponent, double median) {
  /**
   * Medians that are left alone: those of photographs of dies, drawn ones and published ones, lie
   * between 0.2 and 0.7.
   */
  private static final double DARKEST = 0.16;

  private static final double BRIGHTEST = 0.84;

  /**
   * A median above this is told: of 26 drawn dies none lay above 0.58, of 18 photographs of dies
   * one (0.63).
   */
  private static final double BRIGHT = 0.6;

  /** Where another median is brought to. */
  private static final double DARK_TO = 0.42;

  private static final double BRIGHT_TO = 0.6;

  /** A power beyond this would show noise and steps rather than layout. */
  private static final double STRONGEST = 3;

  /**
   * The curve for a die of this median grey, power 1 where it is only told; empty if it is usual.
   */
  static Optional<ToneCurve> of(double median) {
    if (median <= 0 || median >= 1 || median >= DARKEST && median <= BRIGHT) {
      return Optional.empty();
    }
    if (median > BRIGHT && median <= BRIGHTEST) {
      return Optional.of(new ToneCurve(1, median));
    }
    double to = median < DARKEST ? DARK_TO : BRIGHT_TO;
    double exponent = Math.log(to) / Math.log(median);
    return Optional.of(
        new ToneCurve(Math.max(1 / STRONGEST, Math.min(STRONGEST, exponent)), median));
  }

  /** The photograph with this curve on its grey. Closing it closes the photograph. */
  PixelSource applied(PixelSource photo) {
    return exponent == 1 ? photo : new Curved(photo, exponent);
  }

  PreparationStep step() {
    String found =
        exponent == 1
            ? "The die is brighter than most (median grey %.0f %%); its greys were left as they"
                + " are."
            : median < DARKEST
                ? "The die is very dark (median grey %.0f %%), so its greys were raised to the"
                    + " power of %.2f."
                : "The die is very bright (median grey %.0f %%), so its greys were raised to the"
                    + " power of %.2f.";
    return PreparationStep.of(
            PreparationStep.Kind.TONE, String.format(Locale.ROOT, found, 100 * median, exponent))
        .with("exponent", exponent)
        .with("median_grey", median);
  }

  private record Curved(PixelSource photo, double exponent) implements PixelSource {
    @Override
    public int width() {
      return photo.width();
    }

    @Override
    public int height() {
      return photo.height();
    }

    @Override
    public void readGray(PixelRect window, float[] target) {
      photo.readGray(window, target);
      for (int i = window.width() * window.height() - 1; i >= 0; i--) {
        // Powers of StrictMath are the same on every machine.
        target[i] = (float) StrictMath.pow(Math.max(0, target[i]), exponent);
      }
    }

    @Override
    public void readRgb(PixelRect window, int[] target) {
      photo.readRgb(window, target);
    }

    @Override
    public void close() throws IOException {
      photo.close();
    }
  }
}
