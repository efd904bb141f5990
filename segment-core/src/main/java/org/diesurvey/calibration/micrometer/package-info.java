/**
 * Finds the division lines of a stage micrometer in a photograph. In: pixels and the length of a
 * division in um. Out: places of the lines, pixels per division with what its uncertainty rests on,
 * or a refusal in one sentence. May use: quantity, raster, vision, photo, calibration, Commons
 * Math.
 */
package org.diesurvey.calibration.micrometer;
