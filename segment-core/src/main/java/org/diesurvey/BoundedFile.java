package org.diesurvey;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.diesurvey.DieInputException.Reason;

/** Reads documents whole once their size is known to be one that such documents have. */
public final class BoundedFile {
  private BoundedFile() {}

  /**
   * The bytes of a file.
   *
   * @param most bytes that are read
   * @param reason the reason of a refusal
   * @throws DieInputException if the file is larger
   * @throws IOException if it cannot be read
   */
  public static byte[] bytes(Path file, long most, Reason reason) throws IOException {
    long size = Files.size(file);
    if (size > most) {
      throw new DieInputException(
          reason,
          file
              + ": the file has "
              + size
              + " bytes, at most "
              + most
              + " are read; check that it is the right file.");
    }
    return Files.readAllBytes(file);
  }
}
