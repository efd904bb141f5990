/**
 * The registered pictures tile by tile: how alike they are, what is only another light or a small
 * shift, and which tiles have changed.
 */
package org.diesurvey.comparison.tiles;
