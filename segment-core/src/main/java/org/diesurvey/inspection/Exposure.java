package org.diesurvey.inspection;

/**
 * Samples at the ends of the scale, where what was brighter or darker is lost; on the die where its
 * edge was found, else in the whole photograph.
 *
 * @param blackShare share of pixels whose brightest channel is at level 0 or 1 of 255
 * @param whiteShare share of pixels with a channel at level 254 or 255 of 255
 */
public record Exposure(double blackShare, double whiteShare) {}
