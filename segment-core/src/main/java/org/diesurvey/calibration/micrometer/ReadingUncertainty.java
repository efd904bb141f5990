package org.diesurvey.calibration.micrometer;

import org.diesurvey.quantity.Propagation;

/** What one reading contributes to the uncertainty of the pitch, each over the pitch. */
final class ReadingUncertainty {
  /**
   * Standard uncertainty of a line's place that all lines may share in a way that grows along the
   * scale, px: interpolation and sampling, and a part of the line's width for light that falls off
   * across it. From drawn micrometers without other faults.
   */
  private static final double PLACING_PX = 0.01;

  private static final double PLACING_OF_WIDTH = 0.002;

  private ReadingUncertainty() {}

  static double placing(MicrometerReading r) {
    double one = PLACING_PX + PLACING_OF_WIDTH * r.engraving().lineWidthPx();
    return Math.sqrt(2) * one / (r.step().px().value() * (r.places() - 1));
  }

  /** A scale measured askew by an angle looks longer by 1 / cos: half the square of the angle. */
  static double rotation(MicrometerReading r) {
    double angle = Math.toRadians(r.rotationDeg().standardUncertainty());
    return 0.5 * angle * angle;
  }

  /** The step of the middle of the field may lie anywhere between its least and greatest value. */
  static double distortion(MicrometerReading r) {
    return r.bend().significant() ? Propagation.rectangular(0.5 * r.bend().relative()) : 0;
  }

  /** All of them together. */
  static double relative(MicrometerReading r) {
    return Propagation.independent(
        r.step().px().standardUncertainty() / r.step().px().value(),
        placing(r),
        rotation(r),
        distortion(r));
  }
}
