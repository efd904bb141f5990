package org.diesurvey.photo;

import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;

/** Tells a photograph from an empty frame. */
final class ContentCheck {
  /** Share of pixels that may be hot or dead in a frame that is empty nevertheless. */
  private static final double STRAY_SHARE = 0.001;

  /** Levels of 8-bit samples that count as no difference. */
  private static final double FLAT_8_BIT = 2.5 / 255;

  /** The same for 16-bit samples, which may hold a camera's 10 or 12 bits at the lower end. */
  private static final double FLAT_16_BIT = 64.5 / 65535;

  private ContentCheck() {}

  static void check(PhotoInfo info, LevelSample levels) {
    double flat = info.bitsPerSample() == 8 ? FLAT_8_BIT : FLAT_16_BIT;
    if (levels.share(0, flat) >= 1 - STRAY_SHARE) {
      throw refusal(info, "black");
    }
    if (levels.share(1 - flat, 1) >= 1 - STRAY_SHARE) {
      throw refusal(info, "white");
    }
    if (levels.highest() - levels.lowest() <= flat) {
      throw refusal(info, "of one flat tone");
    }
  }

  private static DieInputException refusal(PhotoInfo info, String seen) {
    return new DieInputException(
        Reason.PHOTO_WITHOUT_CONTENT,
        info.fileName()
            + " is "
            + seen
            + " all over, nothing to survey: check exposure and export, and photograph again.");
  }
}
