package org.diesurvey.estimates;

import java.util.OptionalDouble;

/**
 * One row of a density table.
 *
 * @param nodeNm process node, nm; empty for quantities of any node
 * @param quantity what is stated, with its unit
 * @param range 2.5 % point, median and 97.5 % point
 * @param obtained "found" in a source, "derived" from one, "memory" without one at hand, or
 *     "measured" by the user
 * @param source where the figures come from
 * @param note what else a reader must know; may be empty
 */
public record DensityRow(
    OptionalDouble nodeNm,
    DensityQuantity quantity,
    LogRange range,
    String obtained,
    String source,
    String note) {}
