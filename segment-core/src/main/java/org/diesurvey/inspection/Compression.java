package org.diesurvey.inspection;

import java.util.Optional;
import org.diesurvey.photo.JpegCompression;

/**
 * Traces of JPEG.
 *
 * @param jpeg what the file's own table says; empty unless the file is a JPEG
 * @param gridRatio mean step between neighbouring pixels on the lines of the 8 x 8 px grid over the
 *     mean step elsewhere; 1 without traces, also found in a PNG or TIFF that once was a JPEG
 */
public record Compression(Optional<JpegCompression> jpeg, double gridRatio) {}
