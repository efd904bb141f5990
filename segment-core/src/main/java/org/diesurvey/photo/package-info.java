/**
 * Reads photographs: a file comes in, its provenance ({@link org.diesurvey.photo.PhotoInfo}) and
 * windows of its pixels ({@link org.diesurvey.photo.PixelSource}) go out.
 *
 * <p>The pixel frame is the stored frame: orientation tags (EXIF, TIFF Orientation) are not
 * applied, colour profiles are not applied, nothing is resampled. Pixels have no physical size
 * here; a scale that the file states about itself is only passed on. Uses the JDK and the packages
 * {@code quantity} and {@code raster}.
 */
package org.diesurvey.photo;
