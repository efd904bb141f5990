package org.diesurvey.comparison;

import org.diesurvey.Supported;
import org.diesurvey.comparison.document.Comparison;
import org.diesurvey.comparison.tiles.DifferenceMap;

/**
 * A comparison with what is needed to draw it.
 *
 * @param comparison the document
 * @param map structural agreement by tiles
 * @param placeA from the first die frame to the first photograph
 * @param placeB from the second die frame to the second photograph; go through {@code
 *     comparison.registration().aToB()} first
 */
@Supported
public record ComparisonResult(
    Comparison comparison, DifferenceMap map, DiePlace placeA, DiePlace placeB) {}
