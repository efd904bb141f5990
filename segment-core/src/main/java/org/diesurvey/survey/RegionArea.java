package org.diesurvey.survey;

import java.util.Optional;
import org.diesurvey.Supported;
import org.diesurvey.quantity.MeasuredArea;

/**
 * How large a region is.
 *
 * @param px2 area in square pixels of the photograph
 * @param mm2 area in mm2 with its uncertainty in parts; empty without a scale
 * @param shareOfDie area over the die's area, 0 to 1 (over the photo's area if no die edge was
 *     found)
 * @param memoryParts areas of arrays and periphery of a memory region; empty for other classes,
 *     without a scale, and where no arrays were found
 */
@Supported
public record RegionArea(
    double px2, Optional<MeasuredArea> mm2, double shareOfDie, Optional<MemoryParts> memoryParts) {}
