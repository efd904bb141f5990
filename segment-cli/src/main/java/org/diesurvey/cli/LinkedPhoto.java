package org.diesurvey.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.pipeline.HandOutlines;

/** The photograph that outlines name, looked for beside their file and in the folders above. */
final class LinkedPhoto {
  private static final int FOLDERS = 3;

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
    // Only the name counts: a file from elsewhere must not lead to other places.
    Path last = Path.of(name.replace('\\', '/').replace("\0", "")).getFileName();
    Path folder = file.toAbsolutePath().getParent();
    for (int i = 0; last != null && i < FOLDERS && folder != null; i++) {
      Path photo = folder.resolve(last);
      if (Files.isRegularFile(photo)) {
        return photo;
      }
      folder = folder.getParent();
    }
    throw new DieInputException(
        Reason.FILE_MISSING,
        file + ": the photograph that the outlines name is not beside them; give it with --photo.");
  }
}
