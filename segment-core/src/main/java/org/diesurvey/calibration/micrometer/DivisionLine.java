package org.diesurvey.calibration.micrometer;

import org.diesurvey.raster.PixelPoint;

/**
 * A division line found in the photograph.
 *
 * @param index whole number of divisions from the first line found
 * @param from one end, px of the photograph
 * @param to other end, px of the photograph
 * @param residualPx place minus that of the fitted scale, px across the lines
 * @param curvePx what a smooth bend of the scale would make of the residual, px
 * @param used whether it took part in the fit
 * @param longer whether it is longer than most
 */
public record DivisionLine(
    int index,
    PixelPoint from,
    PixelPoint to,
    double residualPx,
    double curvePx,
    boolean used,
    boolean longer) {}
