package org.diesurvey.scoring;

/**
 * Bond pads counted beside the truth.
 *
 * @param counted by the survey
 * @param actual on the die, above 0
 */
public record PadCount(int counted, int actual) {
  /** Rejects a truth without bond pads: a relative error would have no meaning. */
  public PadCount {
    if (actual < 1 || counted < 0) {
      throw new IllegalArgumentException(
          "needs counted >= 0 and actual >= 1, were " + counted + ", " + actual);
    }
  }

  /** Counted minus actual. */
  public int error() {
    return counted - actual;
  }

  /** Error over the actual number, in percent, with its sign; the actual number must be above 0. */
  public double errorPercent() {
    return 100.0 * error() / actual;
  }
}
