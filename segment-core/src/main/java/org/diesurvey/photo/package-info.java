/**
 * Photographs as files. In: a path. Out: windows of pixels on demand, and what the file says of
 * itself (format, size, bit depth, SHA-256, tagged scale). Does not decide on a scale. May use:
 * raster, vision.
 */
package org.diesurvey.photo;
