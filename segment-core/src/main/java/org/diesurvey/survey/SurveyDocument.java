package org.diesurvey.survey;

import java.time.Instant;
import java.util.Optional;
import org.diesurvey.Supported;

/**
 * A survey as it lies in a file: the survey and the moment at which it was written.
 *
 * @param survey the survey
 * @param created when the survey was made, to the second; empty where the document does not say
 */
@Supported
public record SurveyDocument(Survey survey, Optional<Instant> created) {}
