package org.diesurvey.archive;

import java.util.Optional;
import org.diesurvey.Supported;
import org.diesurvey.photo.PhotoInfo;
import org.diesurvey.pipeline.ScaleInput;
import org.diesurvey.survey.Notice;

/** Decides on the scale of a photograph once its file is open. */
@Supported
public interface ScaleChoice {
  /** Only what was stated counts. */
  ScaleChoice STATED_ONLY =
      new ScaleChoice() {
        @Override
        public Chosen choose(ScaleInput stated, PhotoInfo photo) {
          return new Chosen(stated, Optional.empty());
        }

        @Override
        public String name() {
          return "stated only";
        }
      };

  /**
   * A scale.
   *
   * @param input for the survey
   * @param notice what a reader of the survey must know of the choice
   */
  record Chosen(ScaleInput input, Optional<Notice> notice) {}

  /** The scale, from what was stated and what the file says of itself. */
  Chosen choose(ScaleInput stated, PhotoInfo photo);

  /** Name of the rule; another name makes photographs be surveyed again. */
  String name();
}
