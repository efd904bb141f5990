package org.diesurvey.examples;

import java.nio.file.Path;
import org.diesurvey.photo.DiePhoto;
import org.diesurvey.pipeline.PhotoScale;
import org.diesurvey.pipeline.ScaleInput;

/** A file, and the scale that it states about itself if it may be a microscope's. */
final class FileAndItsScale {
  private FileAndItsScale() {}

  static ScaleInput run(Path file) {
    // begin
    try (DiePhoto photo = DiePhoto.open(file)) {
      PhotoScale scale = PhotoScale.choose(ScaleInput.NONE, true, photo.info());
      scale.notice().ifPresent(n -> System.out.println(n.sentence() + " " + n.remedy()));
      return scale.input();
    }
    // end
  }
}
