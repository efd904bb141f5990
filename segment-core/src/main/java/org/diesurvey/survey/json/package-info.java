/**
 * The written form of a survey: JSON with a published schema, equal bytes for equal surveys; and
 * read back with every member checked.
 */
package org.diesurvey.survey.json;
