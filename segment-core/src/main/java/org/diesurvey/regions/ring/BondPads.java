package org.diesurvey.regions.ring;

/**
 * Bond pads of a ring, or its I/O cells where no pads stand out.
 *
 * @param count how many were counted
 * @param standardUncertainty of the count
 * @param pitchPx usual distance of neighbours, px of the upright raster; 0 if none is usual
 * @param seen whether pads themselves were seen; if not, I/O cells were counted, and one pad to
 *     each is assumed
 */
public record BondPads(int count, double standardUncertainty, double pitchPx, boolean seen) {}
