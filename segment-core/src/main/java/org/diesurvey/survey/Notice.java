package org.diesurvey.survey;

import org.diesurvey.Supported;

/**
 * A warning or refusal that a reader of the survey must know.
 *
 * @param id stable identifier, lower case with hyphens, for example "no-scale"
 * @param sentence what was found, one sentence
 * @param remedy what the user can do, one sentence
 */
@Supported
public record Notice(String id, String sentence, String remedy) {}
