package org.diesurvey.photo;

import java.util.Optional;
import org.diesurvey.photo.PhotoInfo.TaggedScale;

/** Turns resolution tags into micrometres per pixel. */
final class ScaleTags {
  /**
   * Outside this range a tag cannot describe a photograph of a die (common practice, no source).
   */
  private static final double MIN_UM_PER_PX = 0.01;

  private static final double MAX_UM_PER_PX = 100;

  /** One inch is exactly 25.4 mm. */
  static final double UM_PER_INCH = 25_400;

  static final double UM_PER_CENTIMETRE = 10_000;
  static final double UM_PER_METRE = 1_000_000;

  private ScaleTags() {}

  /** The pitch that a tag states, where it is a usable number. */
  static Optional<TaggedScale> ofPitch(double umPerPx, String origin) {
    boolean usable = umPerPx >= MIN_UM_PER_PX && umPerPx <= MAX_UM_PER_PX;
    return usable ? Optional.of(new TaggedScale(umPerPx, origin)) : Optional.empty();
  }

  /** The pitch for a number of pixels per unit. */
  static Optional<TaggedScale> ofDensity(double pixelsPerUnit, double umPerUnit, String origin) {
    return ofPitch(umPerUnit / pixelsPerUnit, origin);
  }
}
