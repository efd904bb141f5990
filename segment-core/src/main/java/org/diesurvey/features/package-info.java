/**
 * What a tile looks like in numbers: periods, variances, directions, grey-level co-occurrence. In:
 * tile windows. Out: named feature values by physical scale; a value finer than the sampling is
 * absent, not zero. Knows no class names. May use: quantity, raster, vision, preparation, tiles,
 * Commons Math.
 */
package org.diesurvey.features;
