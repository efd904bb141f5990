/**
 * The order of the steps, and the only place that knows it. In: a photograph, a scale, settings.
 * Out: a survey with its label and confidence maps. Formats no text. May use: the packages above.
 */
package org.diesurvey.pipeline;
