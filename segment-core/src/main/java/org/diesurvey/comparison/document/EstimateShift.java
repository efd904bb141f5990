package org.diesurvey.comparison.document;

import java.util.Optional;
import org.diesurvey.Supported;

/**
 * An estimate of the first die against that of the second. Both rest on the same densities, so
 * their ratio is known better than either.
 *
 * @param name "bits", "nand2_equivalents", "logic_transistors"
 * @param unit "bit", "NAND2 equivalents", "transistors"
 * @param a in the first die; empty if it has none
 * @param b in the second die; empty if it has none
 */
@Supported
public record EstimateShift(String name, String unit, Optional<Span> a, Optional<Span> b) {
  /**
   * A 95 % interval.
   *
   * @param low 2.5 % point
   * @param median 50 % point
   * @param high 97.5 % point
   */
  public record Span(double low, double median, double high) {}
}
