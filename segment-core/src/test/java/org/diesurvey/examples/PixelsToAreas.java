package org.diesurvey.examples;

import java.awt.image.BufferedImage;
import java.util.List;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.pipeline.DieSegmenter;
import org.diesurvey.quantity.Measured;
import org.diesurvey.survey.ClassTotal;
import org.diesurvey.survey.Survey;

/** From pixels to areas. */
final class PixelsToAreas {
  private PixelsToAreas() {}

  static List<ClassTotal> run(BufferedImage pixels) {
    // begin
    DiePhoto photo = DiePhoto.of("die", pixels);
    Calibration scale = Calibration.ofPixelPitch(0.8, 0.002);
    Survey survey = DieSegmenter.withDefaults().segment(photo, scale);
    for (ClassTotal t : survey.totals()) {
      Measured area = t.areaMm2().orElseThrow();
      System.out.println(
          t.dieClass() + ": " + area.value() + " mm2, u " + area.standardUncertainty());
    }
    return survey.totals();
    // end
  }
}
