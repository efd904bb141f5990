/**
 * Surveys for people and other programs: pictures, tables, documents. In: a survey, its maps and
 * the photograph. Out: files. Computes no figure of its own. May use: the packages above.
 */
package org.diesurvey.report;
