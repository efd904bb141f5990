package org.diesurvey.calibration.micrometer;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Minima of a profile that stand out from both sides by more than a threshold. */
final class ProfileMinima {
  /**
   * One minimum.
   *
   * @param u middle between the two places at half depth, px
   * @param depth below the mean of the maxima beside it
   * @param width between the places at half depth, px
   */
  record Dip(double u, double depth, double width) {}

  private ProfileMinima() {}

  /**
   * Walks along the profile with hysteresis: a minimum counts once the profile has risen by the
   * threshold after it, a maximum once it has fallen by it. So neither width nor spacing needs to
   * be known.
   *
   * @param first column of profile[0]
   */
  static List<Dip> of(double[] profile, int first, double threshold) {
    List<Dip> dips = new ArrayList<>();
    int n = profile.length;
    if (n < 3) {
      return dips;
    }
    int high = 0;
    int low = -1;
    int highBefore = 0;
    boolean falling = false;
    for (int i = 1; i < n; i++) {
      if (!falling) {
        if (profile[i] > profile[high]) {
          high = i;
        } else if (profile[high] - profile[i] > threshold) {
          if (low >= 0) {
            dips.add(dip(profile, first, highBefore, low, high));
          }
          highBefore = high;
          low = i;
          falling = true;
        }
      } else if (profile[i] < profile[low]) {
        low = i;
      } else if (profile[i] - profile[low] > threshold) {
        high = i;
        falling = false;
      }
    }
    if (low >= 0 && !falling) {
      dips.add(dip(profile, first, highBefore, low, high));
    }
    return dips;
  }

  private static Dip dip(double[] p, int first, int left, int low, int right) {
    double top = 0.5 * (p[left] + p[right]);
    // On a slope half depth may lie above one of the shoulders.
    double level =
        Math.min(0.5 * (top + p[low]), 0.25 * p[low] + 0.75 * Math.min(p[left], p[right]));
    int i = low;
    while (i > left && p[i] < level) {
      i--;
    }
    double from = i + (level - p[i]) / (p[i + 1] - p[i]);
    int j = low;
    while (j < right && p[j] < level) {
      j++;
    }
    double to = j - (level - p[j]) / (p[j - 1] - p[j]);
    return new Dip(first + 0.5 + 0.5 * (from + to), top - p[low], to - from);
  }

  /**
   * Noise of a profile from its second differences: 1.4826 median |d| / sqrt(6), the standard
   * deviation if the noise is white and normal. Lines touch few of them.
   */
  static double noise(double[] profile) {
    int n = profile.length - 2;
    if (n < 8) {
      return 0;
    }
    double[] d = new double[n];
    for (int i = 0; i < n; i++) {
      d[i] = Math.abs(profile[i] - 2 * profile[i + 1] + profile[i + 2]);
    }
    Arrays.sort(d);
    return 1.4826 * d[n / 2] / Math.sqrt(6);
  }
}
