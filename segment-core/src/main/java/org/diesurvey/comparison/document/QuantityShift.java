package org.diesurvey.comparison.document;

import java.util.Optional;
import org.diesurvey.Supported;
import org.diesurvey.quantity.Measured;

/**
 * A quantity of the first die against the same of the second: class totals, die size.
 *
 * @param name for example "memory array", "die width"
 * @param unit "mm2", "mm", "share"
 * @param a in the first die; empty if it has none
 * @param b in the second die; empty if it has none
 * @param difference b minus a, both uncertainties taken as independent; empty if one is
 */
@Supported
public record QuantityShift(
    String name,
    String unit,
    Optional<Measured> a,
    Optional<Measured> b,
    Optional<Measured> difference) {}
