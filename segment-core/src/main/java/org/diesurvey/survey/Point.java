package org.diesurvey.survey;

import org.diesurvey.Supported;

/**
 * A corner of an outline. In a pixel outline: px, x right, y down, origin at the outer corner of
 * the top left pixel. In a die outline: um, origin at the lower left die corner, x right, y up,
 * after the die's rotation is taken out.
 *
 * @param x px or um
 * @param y px or um
 */
@Supported
public record Point(double x, double y) {}
