package org.diesurvey.photo;

import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.raster.PixelRect;

/** Tells a photograph from an empty frame. */
final class ContentCheck {
  private static final int ROWS = 64;

  /** Share of pixels that may be hot or dead in a frame that is empty nevertheless. */
  private static final double STRAY_SHARE = 0.001;

  /** Levels of 8-bit samples that count as no difference. */
  private static final double FLAT_8_BIT = 2.5 / 255;

  /** The same for 16-bit samples, which may hold a camera's 10 or 12 bits at the lower end. */
  private static final double FLAT_16_BIT = 64.5 / 65535;

  private ContentCheck() {}

  static void check(PhotoInfo info, PixelSource pixels) {
    double flat = info.bitsPerSample() == 8 ? FLAT_8_BIT : FLAT_16_BIT;
    int rows = Math.min(ROWS, pixels.height());
    float[] row = new float[pixels.width()];
    long black = 0;
    long white = 0;
    float low = 1;
    float high = 0;
    for (int i = 0; i < rows; i++) {
      // Middles of equal bands, so that a frame around the picture does not decide.
      int y = (int) ((2L * i + 1) * pixels.height() / (2L * rows));
      pixels.readGray(new PixelRect(0, y, pixels.width(), 1), row);
      for (float value : row) {
        black += value <= flat ? 1 : 0;
        white += value >= 1 - flat ? 1 : 0;
        low = Math.min(low, value);
        high = Math.max(high, value);
      }
    }
    double enough = (1 - STRAY_SHARE) * rows * pixels.width();
    if (black >= enough) {
      throw refusal(info, "black");
    }
    if (white >= enough) {
      throw refusal(info, "white");
    }
    if (high - low <= flat) {
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
