package org.diesurvey.estimates;

import org.diesurvey.Supported;

/**
 * A refusal or warning about estimates.
 *
 * @param id stable identifier
 * @param sentence what is so
 * @param remedy what the user can do
 */
@Supported
public record EstimateNotice(String id, String sentence, String remedy) {}
