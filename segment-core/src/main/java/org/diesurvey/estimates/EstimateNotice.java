package org.diesurvey.estimates;

/**
 * A refusal or warning about estimates.
 *
 * @param id stable identifier
 * @param sentence what is so
 * @param remedy what the user can do
 */
public record EstimateNotice(String id, String sentence, String remedy) {}
