/**
 * How large a pixel is on the die. In: statements, calibration files, tags, lengths in um. Out:
 * pixel pitch in um/px with standard uncertainty and origin; limits of resolution in um. Never
 * changes pixels. May use: quantity, raster, vision, photo, Commons Math.
 */
package org.diesurvey.calibration;
