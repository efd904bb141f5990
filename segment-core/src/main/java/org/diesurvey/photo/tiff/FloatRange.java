package org.diesurvey.photo.tiff;

import java.util.Locale;
import org.diesurvey.photo.file.Refusals;

/**
 * The range of the floating-point samples of a photograph, and its linear map to 16-bit levels.
 *
 * @param least the least finite sample, which becomes 0
 * @param greatest the greatest finite sample, which becomes 65,535
 * @param notFinite samples that are no numbers or infinite: positive infinity becomes 65,535, all
 *     others 0
 */
public record FloatRange(double least, double greatest, long notFinite) {
  private static final int WHITE = 65_535;

  /** Less than a hundredth of the range above 0 is no picture in light. */
  private static final double MOST_ZERO = 0.99;

  /** The level of a sample; 0 if all are equal. */
  short level(double sample) {
    if (!(sample > least)) {
      return 0;
    }
    return (short) (sample >= greatest ? WHITE : (int) (share(sample) * WHITE + 0.5));
  }

  /**
   * The level, 0 to 1, at which the file holds 0: the levels less this one are in proportion to the
   * samples. Below 0 if all samples are positive; 0 if the positive ones are few or none, as they
   * are no amounts of light.
   */
  public double zero() {
    double zero = greatest > least ? share(0) : 0;
    return zero < MOST_ZERO ? zero : 0;
  }

  /** Halves, because the whole span of doubles is no double. */
  private double share(double sample) {
    return (sample / 2 - least / 2) / (greatest / 2 - least / 2);
  }

  /** What is done to the samples, without a full stop. */
  public String sentence(int bits) {
    String others =
        notFinite == 0
            ? ""
            : String.format(
                Locale.ROOT,
                " (%d samples are no finite numbers: infinity is white, the others are black)",
                notFinite);
    return String.format(
        Locale.ROOT,
        "Floating-point samples of %d bits were scaled to whole numbers of 16, the least of the"
            + " file, %.4g, to black and the greatest, %.4g, to white%s",
        bits,
        least,
        greatest,
        others);
  }

  /** Collects samples. */
  static final class Finder {
    private double least = Double.POSITIVE_INFINITY;
    private double greatest = Double.NEGATIVE_INFINITY;
    private long notFinite;

    void add(double sample) {
      if (Double.isFinite(sample)) {
        least = Math.min(least, sample);
        greatest = Math.max(greatest, sample);
      } else {
        notFinite++;
      }
    }

    /** The range of the samples added. */
    FloatRange range(Refusals refusals) {
      if (least > greatest) {
        throw refusals.damaged("none of its floating-point samples is a finite number");
      }
      return new FloatRange(least, greatest, notFinite);
    }
  }
}
