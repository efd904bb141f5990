/**
 * The grid of tiles over a die. In: a prepared die. Out: tile windows of one physical size in um
 * and their rows and columns, counted from the top left. Computes no feature. May use: quantity,
 * raster, calibration, preparation.
 */
package org.diesurvey.tiles;
