package org.diesurvey.report.picture;

import org.diesurvey.report.text.Quantities;

/**
 * A scale bar of round length.
 *
 * @param lengthUm 1, 2 or 5 times a power of ten
 * @param label length with unit
 */
public record ScaleBar(double lengthUm, String label) {

  /** The longest round bar that is no longer than {@code longestUm}, which is positive. */
  public static ScaleBar upTo(double longestUm) {
    double decade = Math.pow(10, Math.floor(Math.log10(longestUm)));
    double length = decade;
    for (int step : new int[] {2, 5, 10}) {
      // Powers of ten are not exact in binary below one; a hair of slack keeps round limits.
      if (step * decade <= longestUm * (1 + 1e-9)) {
        length = step * decade;
      }
    }
    String label =
        length >= 1000
            ? Quantities.significant(length / 1000, 1) + " mm"
            : Quantities.significant(length, 1) + " \u00b5m";
    return new ScaleBar(length, label);
  }
}
