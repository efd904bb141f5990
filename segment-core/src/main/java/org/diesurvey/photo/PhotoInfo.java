package org.diesurvey.photo;

import java.util.Optional;
import org.diesurvey.Supported;

/**
 * What is known of a photograph before its pixels are looked at.
 *
 * @param fileName name without folders
 * @param sha256 of the file's bytes, 64 lower-case hex digits
 * @param fileBytes size of the file
 * @param format "PNG", "JPEG", "TIFF", "BMP", or "MEMORY" for pixels that came from no file
 * @param widthPx columns
 * @param heightPx rows
 * @param bitsPerSample 8 or 16; of floating-point samples 16, which they are scaled to
 * @param samplesPerPixel 1 grey, 2 grey with alpha, 3 RGB, 4 RGB with alpha
 * @param taggedScale scale stated by the file's own metadata, if any; such tags are often
 *     meaningless
 */
@Supported
public record PhotoInfo(
    String fileName,
    String sha256,
    long fileBytes,
    String format,
    int widthPx,
    int heightPx,
    int bitsPerSample,
    int samplesPerPixel,
    Optional<TaggedScale> taggedScale) {

  /**
   * A scale that the file states about itself.
   *
   * @param umPerPx micrometres per pixel, positive and finite
   * @param origin which tag said so, for example "TIFF XResolution/ResolutionUnit"
   */
  public record TaggedScale(double umPerPx, String origin) {}
}
