package org.diesurvey.estimates;

import java.util.List;
import org.diesurvey.Supported;

/**
 * The estimate of one region.
 *
 * @param id of the region
 * @param kind bits or NAND2-equivalents
 * @param amount with its 95 % interval
 * @param origin what it rests on, one sentence
 * @param hints for bits: plausible organisations near the median, nearest first; hints only
 */
@Supported
public record RegionEstimate(
    String id, AmountKind kind, Estimate amount, String origin, List<String> hints) {
  /** Copies the list. */
  public RegionEstimate {
    hints = List.copyOf(hints);
  }
}
