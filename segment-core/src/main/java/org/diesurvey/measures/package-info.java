/**
 * Sizes of regions. In: counts and lengths in px, pitch in um/px. Out: areas in mm2 and lengths in
 * mm with standard uncertainty, shares, periods in um. May use: the packages above and Commons
 * Math.
 */
package org.diesurvey.measures;
