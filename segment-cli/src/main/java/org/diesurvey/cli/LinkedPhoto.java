package org.diesurvey.cli;

import java.nio.file.Path;
import java.util.List;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.pipeline.HandOutlines;

/** The photograph that outlines name, looked for beside their file and in the folders above. */
final class LinkedPhoto {
  private LinkedPhoto() {}

  /**
   * @throws DieInputException FILE_MISSING if the outlines name none, or it is not there
   */
  static Path find(HandOutlines outlines, Path file) {
    String name =
        outlines
            .photo()
            .fileName()
            .orElseThrow(
                () ->
                    new DieInputException(
                        Reason.FILE_MISSING,
                        file
                            + ": the outlines do not name their photograph; give it with"
                            + " --photo."));
    return NamedFile.find(name, List.of(), file.toAbsolutePath().getParent())
        .orElseThrow(
            () ->
                new DieInputException(
                    Reason.FILE_MISSING,
                    file
                        + ": the photograph that the outlines name is not beside them; give it"
                        + " with --photo."));
  }
}
