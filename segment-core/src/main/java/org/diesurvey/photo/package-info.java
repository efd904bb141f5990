/**
 * <<<<<<< HEAD Photographs as files. In: a path. Out: windows of pixels on demand, and what the
 * file says of itself (format, size, bit depth, SHA-256, tagged scale). Does not decide on a scale.
 * May use: raster, vision. ======= Reads photographs: a file comes in, its provenance ({@link
 * org.diesurvey.photo.PhotoInfo}) and windows of its pixels ({@link
 * org.diesurvey.photo.PixelSource}) go out.
 *
 * <p>The pixel frame is the stored frame: orientation tags (EXIF, TIFF Orientation) are not
 * applied, colour profiles are not applied, nothing is resampled. Pixels have no physical size
 * here; a scale that the file states about itself is only passed on. Uses the JDK and the packages
 * {@code quantity} and {@code raster}. >>>>>>> photo
 */
package org.diesurvey.photo;
