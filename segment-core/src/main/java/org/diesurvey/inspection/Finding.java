package org.diesurvey.inspection;

/**
 * Something about the photograph that may spoil a survey.
 *
 * @param id stable identifier, lower case with hyphens, for example "stitching-seams"
 * @param sentence what was found, one sentence
 * @param remedy what the user can do, one sentence
 */
public record Finding(String id, String sentence, String remedy) {}
