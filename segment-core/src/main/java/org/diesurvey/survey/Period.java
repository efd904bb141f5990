package org.diesurvey.survey;

import org.diesurvey.Supported;
import org.diesurvey.quantity.Measured;

/**
 * A dominant period of the texture in a region.
 *
 * @param lengthUm the period in um with its standard uncertainty; in um only if the photo has a
 *     scale, else in px
 * @param directionDeg direction along which the pattern repeats, degrees counter-clockwise from the
 *     die's x axis, 0 to 180
 * @param strength height of the autocorrelation peak, 0 to 1
 */
@Supported
public record Period(Measured lengthUm, double directionDeg, double strength) {}
