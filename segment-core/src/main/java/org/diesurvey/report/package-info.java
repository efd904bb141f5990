/**
 * What people and other programs read of a survey: maps, overlay, tables, outlines and the page,
 * all made from a {@link org.diesurvey.survey.Survey} and, for the overlay, the photograph. Nothing
 * is measured here; numbers are only written, with units in names or beside them (um, mm2, px). The
 * door in is {@link org.diesurvey.report.SurveyFolder}.
 *
 * <p>May use: the JDK's imaging, JTS for places of labels, Jackson for text, and the packages
 * before this one.
 */
package org.diesurvey.report;
