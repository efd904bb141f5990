package org.diesurvey.inspection;

import org.diesurvey.raster.Axis;

/**
 * A straight step of grey along the rows or columns of the photograph, as where two fields were
 * stitched.
 *
 * @param along the axis it runs along
 * @param placePx the column (along x: the row) that begins behind it
 * @param stepShare typical step of grey over the grey beside it, median along the seam
 * @param lengthShare share of the photograph's height (or width) along which it is seen
 */
public record Seam(Axis along, int placePx, double stepShare, double lengthShare) {}
