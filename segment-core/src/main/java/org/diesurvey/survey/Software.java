package org.diesurvey.survey;

import org.diesurvey.Supported;

/**
 * What made the survey.
 *
 * @param name of the program
 * @param version of the program
 * @param model name and version of the classifier's model
 * @param modelSha256 of the model file, 64 lower-case hex digits
 */
@Supported
public record Software(String name, String version, String model, String modelSha256) {}
