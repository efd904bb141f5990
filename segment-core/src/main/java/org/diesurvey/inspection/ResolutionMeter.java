package org.diesurvey.inspection;

import java.util.Arrays;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.vision.PowerSpectrum;

/**
 * The finest period that still stands out of the noise in the photograph's own spectrum.
 *
 * <p>The radial power of many windows is averaged. The floor is the median power next to half a
 * cycle per px, where an objective that is sampled finely enough passes nothing, but at least that
 * of rounding to whole levels, 1/12 level squared. Where the power comes down to twice the floor,
 * signal and noise are equal, and what is finer does not stand out. A picture that is sampled too
 * coarsely still has signal there; its period then comes out next to 2 px, which is told.
 */
public final class ResolutionMeter {
  /** The rings from here on, as a share of half a cycle per px, give the floor. */
  private static final double TAIL = 0.92;

  /**
   * Periods below this count as the sampling's limit, px: with signal up to half a cycle per px the
   * floor is the signal's own end, which doubles not far below it.
   */
  private static final double AT_SAMPLING_PX = 3.2;

  private final double[] sum;
  private int windows;

  /**
   * @param sidePx side of the windows
   */
  public ResolutionMeter(int sidePx) {
    sum = new double[sidePx / 2];
  }

  /** Adds a square window of the photograph. */
  public void add(GrayRaster window) {
    add(PowerSpectrum.radial(window));
  }

  void add(double[] power) {
    for (int i = 0; i < sum.length; i++) {
      sum[i] += power[i];
    }
    windows++;
  }

  /**
   * @param level one level of the stored samples, 1/255 or 1/65535
   */
  public Resolution resolution(double level) {
    int n = sum.length;
    if (windows == 0) {
      return new Resolution(2, true);
    }
    double[] power = new double[n];
    for (int i = 1; i < n; i++) {
      int next = Math.min(n - 1, i + 1);
      power[i] = (sum[i - 1] + sum[i] + sum[next]) / 3 / windows;
    }
    double[] tail = Arrays.copyOfRange(power, (int) (TAIL * n), n);
    Arrays.sort(tail);
    double twice = 2 * Math.max(tail[tail.length / 2], level * level / 12);
    int ring = 2;
    while (ring < n - 1 && power[ring] > twice) {
      ring++;
    }
    double before = power[ring - 1];
    // Between two rings the logarithm of the power is taken as straight.
    double part = before > twice ? Math.log(before / twice) / Math.log(before / power[ring]) : 0;
    double frequency = (ring - 0.5 + Math.min(1, part)) / (2.0 * n);
    double period = Math.max(2, 1 / frequency);
    return new Resolution(period, period < AT_SAMPLING_PX);
  }
}
