/**
 * Pictures and label maps on the heap, places and rectangles in them, affine maps of the plane.
 *
 * <p>In and out: pixels; x right, y down, origin at the outer corner of the top left pixel. Knows
 * no physical units. May use: the JDK only.
 */
package org.diesurvey.raster;
