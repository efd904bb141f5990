package org.diesurvey.interchange;

import java.util.Optional;
import java.util.OptionalInt;
import org.diesurvey.Supported;
import org.diesurvey.quantity.Measured;

/**
 * What a survey says of a region, written beside its outline for people and programs that read the
 * file. Readers of this package leave it aside: a corrected outline has other measures.
 *
 * @param areaMm2 area in mm2; empty without a scale
 * @param areaPx area in square pixels of the photograph
 * @param shareOfDie 0 to 1
 * @param confidence that the class is right, 0 to 1
 * @param bondPads counted in a pad ring
 */
@Supported
public record StatedMeasures(
    Optional<Measured> areaMm2,
    double areaPx,
    double shareOfDie,
    double confidence,
    OptionalInt bondPads) {}
