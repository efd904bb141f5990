/**
 * Surveys photographs of bare dies. The packages, in the order in which a photograph passes through
 * them: quantity, raster, vision, photo, calibration, preparation, tiles, features, classification,
 * regions, measures, survey, interchange, pipeline, scoring, report. Each uses only packages before
 * it; a test holds this order. This package holds only what all of them may throw.
 */
package org.diesurvey;
