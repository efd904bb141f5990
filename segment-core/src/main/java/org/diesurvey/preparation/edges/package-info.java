/**
 * The die and its edges in a photograph: a coarse rectangle on an overview, then each side as a
 * line through edge points; px and radians.
 */
package org.diesurvey.preparation.edges;
