package org.diesurvey.estimates;

import org.diesurvey.Supported;

/**
 * How well a process node fits what was measured.
 *
 * @param nodeNm of the density table, nm
 * @param likelihood over the sum of all nodes of the table, 0 to 1; all nodes equal beforehand
 */
@Supported
public record NodeLikelihood(double nodeNm, double likelihood) {}
