/**
 * Pixels for people: overlays, label maps, reduced photographs, pictures of an inspection and of a
 * comparison. Pixels in, pixels and picture files out.
 */
package org.diesurvey.report.picture;
