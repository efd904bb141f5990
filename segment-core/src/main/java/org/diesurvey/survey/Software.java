package org.diesurvey.survey;

/**
 * What made the survey.
 *
 * @param name of the program
 * @param version of the program
 * @param model name and version of the classifier's model
 * @param modelSha256 of the model file, 64 lower-case hex digits
 */
public record Software(String name, String version, String model, String modelSha256) {}
