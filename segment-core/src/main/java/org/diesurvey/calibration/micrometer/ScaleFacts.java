package org.diesurvey.calibration.micrometer;

import java.util.OptionalInt;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;

/**
 * What the user knows of the engraved scale.
 *
 * @param divisionUm from line to line, um, 0.1 to 10000
 * @param longerEvery the only kind of longer line comes at this number of divisions, if the user
 *     says so; settles a count that the picture leaves open
 */
public record ScaleFacts(double divisionUm, OptionalInt longerEvery) {
  /** Rejects divisions that no micrometer has. */
  public ScaleFacts {
    if (!(divisionUm >= 0.1 && divisionUm <= 10_000)) {
      throw new DieInputException(
          Reason.SCALE_INVALID,
          "A division of "
              + divisionUm
              + " um is not that of a stage micrometer: state the engraved division between 0.1 and"
              + " 10000 um, for example 10um.");
    }
  }

  /** A scale of which only the division is known. */
  public static ScaleFacts ofDivision(double divisionUm) {
    return new ScaleFacts(divisionUm, OptionalInt.empty());
  }
}
