package org.diesurvey.scoring;

import org.diesurvey.classification.DieClass;
import org.diesurvey.raster.LabelRaster;

/** How much of the ground that certainly holds nothing was given a class all the same. */
public final class GroundScore {
  private static final int CERTAINLY_BARE = 255;

  private GroundScore() {}

  /**
   * @param ground 255 where nothing is, in the pixel frame of the photograph
   * @param predicted classes in the same frame, codes of {@link DieClass}
   * @return share of the bare ground with one of the four on-die classes, 0 to 1; NaN if there is
   *     no bare ground
   */
  public static double falseAlarms(LabelRaster ground, LabelRaster predicted) {
    if (ground.width() != predicted.width() || ground.height() != predicted.height()) {
      throw new IllegalArgumentException(
          "a ground map of "
              + ground.width()
              + " x "
              + ground.height()
              + " px for a label map of "
              + predicted.width()
              + " x "
              + predicted.height()
              + " px");
    }
    long bare = 0;
    long named = 0;
    for (int i = 0; i < ground.array().length; i++) {
      if ((ground.array()[i] & 0xFF) == CERTAINLY_BARE) {
        bare++;
        int code = predicted.array()[i] & 0xFF;
        named += code != DieClass.UNCLEAR.code() && code != DieClass.OFF_DIE.code() ? 1 : 0;
      }
    }
    return named / (double) bare;
  }
}
