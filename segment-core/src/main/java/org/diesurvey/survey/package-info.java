/**
 * The survey: one immutable document that holds everything known of a photographed die. In and out:
 * records; pixel outlines in px, die outlines in um, areas in mm2. Every report is made from
 * surveys alone. May use: the packages above.
 */
package org.diesurvey.survey;
