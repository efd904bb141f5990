package org.diesurvey.preparation;

import java.io.IOException;
import java.util.Locale;
import java.util.Optional;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.raster.PixelRect;

/**
 * Brings the middle of the greys of a die that is very dark or very bright as a whole back to where
 * photographs have it: cameras and editors apply powers of the light that differ by a factor of
 * four. Dies of usual brightness are left alone.
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

  /** Where another median is brought to. */
  private static final double DARK_TO = 0.42;

  private static final double BRIGHT_TO = 0.6;

  /** A power beyond this would show noise and steps rather than layout. */
  private static final double STRONGEST = 3;

  /** The curve for a die of this median grey; empty if it is of usual brightness. */
  static Optional<ToneCurve> of(double median) {
    if (median <= 0 || median >= 1 || median >= DARKEST && median <= BRIGHTEST) {
      return Optional.empty();
    }
    double to = median < DARKEST ? DARK_TO : BRIGHT_TO;
    double exponent = Math.log(to) / Math.log(median);
    return Optional.of(
        new ToneCurve(Math.max(1 / STRONGEST, Math.min(STRONGEST, exponent)), median));
  }

  /** The photograph with this curve on its grey. Closing it closes the photograph. */
  PixelSource applied(PixelSource photo) {
    return new Curved(photo, exponent);
  }

  PreparationStep step() {
    return PreparationStep.of(
            PreparationStep.Kind.TONE,
            String.format(
                Locale.ROOT,
                "The die is very %s (median grey %.0f %%), so its greys were raised to the power of"
                    + " %.2f.",
                median < DARKEST ? "dark" : "bright",
                100 * median,
                exponent))
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
