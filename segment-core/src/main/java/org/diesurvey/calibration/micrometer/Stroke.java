package org.diesurvey.calibration.micrometer;

/**
 * A straight dark stroke that runs from top to bottom of the upright view.
 *
 * @param u place at half its height, px
 * @param slope change of u for each px of v
 * @param top first v, px
 * @param bottom last v, px
 * @param width at half depth, px
 * @param depth below the ground, grey 0 to 1
 */
record Stroke(double u, double slope, double top, double bottom, double width, double depth) {
  double length() {
    return bottom - top;
  }

  /** Place at a height. */
  double at(double v) {
    return u + slope * (v - 0.5 * (top + bottom));
  }

  /** How much of it lies between two heights, px. */
  double overlap(double from, double to) {
    return Math.max(0, Math.min(bottom, to) - Math.max(top, from));
  }
}
