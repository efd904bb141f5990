package org.diesurvey.scoring;

import java.util.OptionalDouble;
import org.diesurvey.classification.DieClass;

/**
 * How well one class of one die was found.
 *
 * @param dieClass one of the four on-die classes
 * @param inTruth whether the truth holds the class; classes that it does not hold do not enter
 *     means
 * @param iou intersection over union, 0 to 1; empty if the class is neither true nor predicted
 * @param precision share of the predicted area that is right; empty if nothing was predicted
 * @param recall share of the true area that was found; empty if the truth does not hold the class
 * @param trueShare of the scored on-die area, 0 to 1
 * @param predictedShare of the same area, 0 to 1; only pixels that are truly on the die count
 * @param edges how far the predicted edges lie from the true ones
 */
public record ClassScore(
    DieClass dieClass,
    boolean inTruth,
    OptionalDouble iou,
    OptionalDouble precision,
    OptionalDouble recall,
    double trueShare,
    double predictedShare,
    EdgeError edges) {

  /** Predicted share minus true share, in percentage points of the scored on-die area. */
  public double shareErrorPoints() {
    return 100 * (predictedShare - trueShare);
  }
}
