/**
 * Reads photographs: a file comes in, its provenance ({@link org.diesurvey.photo.PhotoInfo}) and
 * windows of its pixels ({@link org.diesurvey.photo.PixelSource}) go out.
 *
 * <p>The pixel frame is that of the picture as it is meant to be seen: orientation tags (EXIF, TIFF
 * Orientation) are applied, colour profiles are not, nothing is resampled. Pixels have no physical
 * size here; a scale that the file states about itself is only passed on. Uses the JDK, the
 * packages inside and {@code raster}.
 */
package org.diesurvey.photo;
