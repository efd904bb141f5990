package org.diesurvey.survey;

import org.diesurvey.Supported;
import org.diesurvey.quantity.Measured;

/**
 * The two parts of a memory region. Their areas add up to the region's.
 *
 * @param arrayMm2 bit-cell arrays together, mm2
 * @param peripheryMm2 the rest: decoders, sense amplifiers, control, gaps between the arrays, mm2
 */
@Supported
public record MemoryParts(Measured arrayMm2, Measured peripheryMm2) {}
