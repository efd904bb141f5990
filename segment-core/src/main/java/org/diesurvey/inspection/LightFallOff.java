package org.diesurvey.inspection;

/**
 * Slow unevenness of the light.
 *
 * @param share how much darker the darkest place is than the brightest, 0 to 1, of a smooth surface
 *     through the grey level
 * @param judged whether that is the light's: on a crop without a die edge a few large blocks of
 *     different grey look just the same
 */
public record LightFallOff(double share, boolean judged) {}
