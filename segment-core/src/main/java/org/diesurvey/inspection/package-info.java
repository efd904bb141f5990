/**
 * What a photograph can carry, told before any survey. In: an open photograph, perhaps its scale,
 * the aperture of the objective and the process node. Out: {@link
 * org.diesurvey.inspection.Inspection}, a tree of records with sharpness, exposure, light, seams,
 * compression, dirt, noise, resolution and findings; in px, um, nm and shares of 0 to 1. May use:
 * quantity, raster, vision, photo, calibration, preparation, Commons Math, Jackson.
 */
package org.diesurvey.inspection;
