package org.diesurvey.comparison.registration;

/**
 * A small square of the first die found again near its expected place.
 *
 * @param x middle of the square, px of the raster
 * @param y the same
 * @param dx how far from the expected place it was found, px
 * @param dy the same
 * @param score correlation there, -1 to 1
 * @param clearness score less that of the best other peak
 */
public record PatchMatch(
    double x, double y, double dx, double dy, double score, double clearness) {}
