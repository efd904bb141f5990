package org.diesurvey.inspection;

/**
 * A straight step of grey along the rows or columns of the photograph, as where two fields were
 * stitched.
 *
 * @param vertical whether it runs from top to bottom
 * @param placePx the column (or row) that begins behind it
 * @param stepShare typical step of grey over the grey beside it, median along the seam
 * @param lengthShare share of the photograph's height (or width) along which it is seen
 */
public record Seam(boolean vertical, int placePx, double stepShare, double lengthShare) {}
