package org.diesurvey.photo;

import java.util.Optional;
import org.diesurvey.photo.PhotoInfo.TaggedScale;

/**
 * What a file's header says.
 *
 * @param width columns
 * @param height rows
 * @param bitsPerSample 8 or 16
 * @param samplesPerPixel 1 to 4
 * @param scale scale tag, if any
 * @param orientation EXIF code, 1 to 8
 */
record PhotoHeader(
    int width,
    int height,
    int bitsPerSample,
    int samplesPerPixel,
    Optional<TaggedScale> scale,
    int orientation) {
  PhotoHeader(
      int width, int height, int bitsPerSample, int samplesPerPixel, Optional<TaggedScale> scale) {
    this(width, height, bitsPerSample, samplesPerPixel, scale, 1);
  }

  /** The same with what an EXIF block says; a scale that the format itself states goes first. */
  PhotoHeader with(ExifTags exif) {
    return new PhotoHeader(
        width,
        height,
        bitsPerSample,
        samplesPerPixel,
        scale.isPresent() ? scale : exif.scale(),
        exif.orientation());
  }
}
