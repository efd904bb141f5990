package org.diesurvey.survey;

import java.util.Map;
import java.util.Optional;
import org.diesurvey.Supported;
import org.diesurvey.classification.DieClass;
import org.diesurvey.classification.UnclearReason;

/**
 * What a region was judged to be, and how sure that is.
 *
 * @param dieClass the class; never off-die
 * @param reason why the region is unclear; empty for others
 * @param confidence probability that the class is right, calibrated on drawn dies left out, 0 to 1
 * @param probabilities of the four on-die classes, each 0 to 1, summing to 1
 */
@Supported
public record ClassVerdict(
    DieClass dieClass,
    Optional<UnclearReason> reason,
    double confidence,
    Map<DieClass, Double> probabilities) {
  /** Copies the map. */
  public ClassVerdict {
    probabilities = Map.copyOf(probabilities);
  }

  /** Whether nothing of the region can be seen. */
  public boolean hidden() {
    return reason.filter(UnclearReason::hides).isPresent();
  }

  /** Whether the evidence did not decide, or nothing of the region can be seen. */
  public boolean unknown() {
    return dieClass == DieClass.UNCLEAR && !reason.equals(Optional.of(UnclearReason.EMPTY));
  }
}
