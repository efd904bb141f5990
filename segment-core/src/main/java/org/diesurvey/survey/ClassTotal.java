package org.diesurvey.survey;

import java.util.Optional;
import org.diesurvey.Supported;
import org.diesurvey.classification.DieClass;
import org.diesurvey.classification.UnclearReason;
import org.diesurvey.quantity.Measured;
import org.diesurvey.quantity.MeasuredArea;

/**
 * All regions of one class together. "Empty" and undecided unclear areas are separate rows.
 *
 * @param dieClass the class
 * @param reason for unclear rows the reason, else empty
 * @param regions how many regions
 * @param mm2 total area in mm2 with its uncertainty in parts, that of the scale common to all
 *     regions; empty without a scale
 * @param shareOfDie total area over the die's area, 0 to 1
 */
@Supported
public record ClassTotal(
    DieClass dieClass,
    Optional<UnclearReason> reason,
    int regions,
    Optional<MeasuredArea> mm2,
    double shareOfDie) {
  /** Total area in mm2; empty without a scale. */
  public Optional<Measured> areaMm2() {
    return mm2.map(MeasuredArea::joined);
  }

  /** Whether nothing of these areas can be seen. */
  public boolean hidden() {
    return reason.filter(UnclearReason::hides).isPresent();
  }
}
