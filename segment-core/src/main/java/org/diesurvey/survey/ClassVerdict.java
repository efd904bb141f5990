package org.diesurvey.survey;

import java.util.Map;
import java.util.Optional;
import org.diesurvey.Supported;
import org.diesurvey.classification.DieClass;

/**
 * What a region was judged to be, and how sure that is.
 *
 * @param dieClass the class; never off-die
 * @param reason why the region is unclear ("empty", "undecided", "damaged", "missing", "unlike the
 *     training data"); empty for others
 * @param confidence probability that the class is right, calibrated on drawn dies left out, 0 to 1
 * @param probabilities of the four on-die classes, each 0 to 1, summing to 1
 */
@Supported
public record ClassVerdict(
    DieClass dieClass,
    Optional<String> reason,
    double confidence,
    Map<DieClass, Double> probabilities) {
  /** Copies the map. */
  public ClassVerdict {
    probabilities = Map.copyOf(probabilities);
  }
}
