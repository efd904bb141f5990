/**
 * What a comparison says: two dies in one frame, their changes and what follows for areas and
 * estimates; with its written form. Reads no pixel.
 */
package org.diesurvey.comparison.document;
