package org.diesurvey.scoring;

/**
 * Bond pads counted beside the truth.
 *
 * @param counted by the survey
 * @param actual on the die
 */
public record PadCount(int counted, int actual) {
  /** Counted minus actual. */
  public int error() {
    return counted - actual;
  }
}
