package org.diesurvey.preparation;

import java.io.IOException;
import java.util.Locale;
import java.util.Optional;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.raster.PixelRect;

/**
 * Brings the middle of the greys of a die to one place by a power: cameras and editors apply powers
 * of the light that differ by a factor of four, and a power of the greys then changes nothing.
 */
final class ToneCurve {
  /** Where the median is brought to: about the mean of photographs of dies (own choice). */
  private static final double MIDDLE = 0.42;

  /**
   * Medians between these are usual: those of photographs of dies, drawn ones and published ones,
   * lie between 0.2 and 0.7.
   */
  private static final double DARKEST = 0.16;

  private static final double BRIGHTEST = 0.84;

  /** A power beyond this would show noise and steps rather than layout. */
  private static final double STRONGEST = 3;

  /** Levels of the table of a curve: those of 16 bits. */
  private static final int LEVELS = 1 << 16;

  /** Exponents nearer to 1 than this change less than the steps of 8 bits. */
  private static final double LEAST = 0.005;

  private final double exponent;
  private final double median;
  private final float[] table = new float[LEVELS];

  private ToneCurve(double exponent, double median) {
    this.exponent = exponent;
    this.median = median;
    for (int i = 0; i < LEVELS; i++) {
      // Powers of StrictMath are the same on every machine.
      table[i] = (float) StrictMath.pow(i / (double) (LEVELS - 1), exponent);
    }
  }

  /**
   * The curve for a die of this median grey; empty where the greys stay as they are.
   *
   * @param median 0 to 1
   */
  static Optional<ToneCurve> of(double median) {
    if (median <= 0 || median >= 1) {
      return Optional.empty();
    }
    double exponent = Math.log(MIDDLE) / Math.log(median);
    double held = Math.max(1 / STRONGEST, Math.min(STRONGEST, exponent));
    return Math.abs(held - 1) < LEAST ? Optional.empty() : Optional.of(new ToneCurve(held, median));
  }

  /** Power that greys are raised to. */
  double exponent() {
    return exponent;
  }

  /** The photograph with this curve on its grey. Closing it closes the photograph. */
  PixelSource applied(PixelSource photo) {
    return new Curved(photo, this);
  }

  /** Takes a row-major raster through the curve; greys beyond 1 too. */
  void apply(float[] greys, int count) {
    for (int i = 0; i < count; i++) {
      int level = (int) (greys[i] * (LEVELS - 1) + 0.5f);
      greys[i] =
          level < LEVELS ? table[Math.max(0, level)] : (float) StrictMath.pow(greys[i], exponent);
    }
  }

  PreparationStep step() {
    boolean usual = median >= DARKEST && median <= BRIGHTEST;
    return PreparationStep.of(
            usual ? PreparationStep.Kind.TONE : PreparationStep.Kind.UNUSUAL_TONE,
            String.format(
                Locale.ROOT,
                "The greys of the die (median %.0f %%%s) were raised to the power of %.2f, so that"
                    + " dies of any brightness compare.",
                100 * median,
                usual ? "" : median < DARKEST ? ", very dark" : ", very bright",
                exponent))
        .with("exponent", exponent)
        .with("median_grey", median);
  }

  private record Curved(PixelSource photo, ToneCurve curve) implements PixelSource {
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
      curve.apply(target, window.width() * window.height());
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
