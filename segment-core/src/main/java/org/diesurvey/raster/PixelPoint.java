package org.diesurvey.raster;

/**
 * A place in a photograph, in pixels: x right, y down, origin at the outer corner of the top left
 * pixel, pixel centres at +0.5.
 *
 * @param x px from the left edge
 * @param y px from the top edge
 */
public record PixelPoint(double x, double y) {}
