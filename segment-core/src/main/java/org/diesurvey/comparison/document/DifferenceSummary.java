package org.diesurvey.comparison.document;

import org.diesurvey.Supported;

/**
 * What the map of structural difference says in numbers; areas as shares of the first die.
 *
 * @param tile side of a tile, unit of length
 * @param same share of the die whose structure agrees
 * @param different share that differs
 * @param notJudged share with too little structure, or hidden on a photograph
 * @param notCommon share that the other photograph does not show
 * @param typicalSimilarity median correlation of unchanged tiles
 * @param threshold probability of change above which a tile with its neighbours counts as different
 */
@Supported
public record DifferenceSummary(
    double tile,
    double same,
    double different,
    double notJudged,
    double notCommon,
    double typicalSimilarity,
    double threshold) {}
