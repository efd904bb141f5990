package org.diesurvey.comparison;

/**
 * What the map of structural difference says in numbers; areas as shares of the first die.
 *
 * @param tile side of a tile, unit of length
 * @param same share of the die whose structure agrees
 * @param different share that differs
 * @param notJudged share with too little structure, or hidden on a photograph
 * @param notCommon share that the other photograph does not show
 * @param typicalSimilarity median correlation of unchanged tiles
 * @param threshold correlation below which a tile counts as different, after the local noise
 */
public record DifferenceSummary(
    double tile,
    double same,
    double different,
    double notJudged,
    double notCommon,
    double typicalSimilarity,
    double threshold) {}
