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
 */
record PhotoHeader(
    int width, int height, int bitsPerSample, int samplesPerPixel, Optional<TaggedScale> scale) {}
