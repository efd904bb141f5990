/**
 * The product: one immutable document of everything known about a surveyed photograph, and its
 * exact written form with a published schema. In go records of earlier packages, out comes {@link
 * org.diesurvey.survey.Survey}; lengths in um or px and areas in mm2 or square pixels, as each name
 * says.
 *
 * <p>May use: quantity, photo, calibration, classification, Jackson.
 */
package org.diesurvey.survey;
