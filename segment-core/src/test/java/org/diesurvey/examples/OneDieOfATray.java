package org.diesurvey.examples;

import java.util.Optional;
import java.util.OptionalInt;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.pipeline.DieSegmenter;
import org.diesurvey.pipeline.PhotoOptions;
import org.diesurvey.pipeline.ScaleInput;
import org.diesurvey.pipeline.SegmentSettings;
import org.diesurvey.survey.Survey;

/** The second die of a photograph of several, of a known process node. */
final class OneDieOfATray {
  private OneDieOfATray() {}

  static Survey run(DiePhoto photo, ScaleInput scale, int number) {
    // begin
    SegmentSettings settings = SegmentSettings.defaults().withNodeNm(130);
    PhotoOptions options = new PhotoOptions(OptionalInt.of(number), Optional.empty());
    DieSegmenter segmenter = DieSegmenter.withDefaults().with(settings);
    return segmenter.survey(photo, scale, options, stage -> {}).survey();
    // end
  }
}
