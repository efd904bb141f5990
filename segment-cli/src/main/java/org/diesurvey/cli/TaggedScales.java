package org.diesurvey.cli;

import org.diesurvey.archive.ScaleChoice;
import org.diesurvey.photo.PhotoInfo;
import org.diesurvey.pipeline.PhotoScale;
import org.diesurvey.pipeline.ScaleInput;

/**
 * The rule of {@link PhotoScale} for bulk surveys.
 *
 * @param mayUseTag whether a file's own tag is used where nothing is stated
 */
record TaggedScales(boolean mayUseTag) implements ScaleChoice {
  @Override
  public Chosen choose(ScaleInput stated, PhotoInfo photo) {
    PhotoScale scale = PhotoScale.choose(stated, mayUseTag, photo);
    return new Chosen(scale.input(), scale.notice());
  }

  @Override
  public String name() {
    return mayUseTag ? "stated, else the file's tag" : "stated only";
  }
}
