package org.diesurvey.estimates;

import org.diesurvey.quantity.Measured;

/**
 * A period found in the texture of a block.
 *
 * @param lengthUm above 0, with the part of its uncertainty that is not the scale's
 * @param alongX whether the pattern repeats along the die's x axis, else along y
 * @param strength height of the autocorrelation peak, 0 to 1
 */
public record TexturePeriod(Measured lengthUm, boolean alongX, double strength) {}
