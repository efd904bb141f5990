/**
 * Two revisions of a die compared: registration in physical units, regions matched, changes told
 * apart from the noise of photographs and surveys.
 *
 * <p>In: two surveys with their photographs. Out: a {@link
 * org.diesurvey.comparison.document.Comparison}, and a map of structural difference. Lengths are um
 * in the die frame of the first die (origin lower left, y up). May use: the packages above.
 */
package org.diesurvey.comparison;
