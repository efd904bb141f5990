package org.diesurvey.examples;

import org.diesurvey.Cancellation;
import org.diesurvey.CancelledException;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.pipeline.DieSegmenter;
import org.diesurvey.pipeline.ScaleInput;
import org.diesurvey.survey.Survey;

/** A survey that another thread gives up. */
final class GivenUp {
  private GivenUp() {}

  static Survey run(DiePhoto photo, ScaleInput scale, Cancellation wish) {
    // begin
    try {
      return DieSegmenter.withDefaults().with(wish).survey(photo, scale).survey();
    } catch (CancelledException e) {
      return null; // wish.cancel() was called; no thread and no file is left
    }
    // end
  }
}
