package org.diesurvey.pipeline;

import org.diesurvey.Supported;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.preparation.PreparedDie;
import org.diesurvey.survey.Survey;

/**
 * A survey with the evidence behind it, for maps finer than regions.
 *
 * @param survey the document
 * @param die the upright die
 * @param tiles probabilities per tile
 * @param stages seconds spent, stage by stage
 */
@Supported
public record SurveyResult(
    Survey survey, PreparedDie die, TileProbabilities tiles, StageTimes stages) {}
