/**
 * From a photograph to an evenly lit, upright die. In: pixels and pitch. Out: corrected grey values
 * 0 to 1, the die's outline and rotation, a mask of damaged places; pixels and um. Knows no
 * classes. May use: quantity, raster, vision, photo, calibration, Commons Math.
 */
package org.diesurvey.preparation;
