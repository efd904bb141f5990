/**
 * The grid of tiles over a die: windows of one physical size in um, their rows and columns, counted
 * from the top left; and grey and activity on their cells, in which edges are placed and damage is
 * found. Computes no feature. May use: raster.
 */
package org.diesurvey.tiles;
