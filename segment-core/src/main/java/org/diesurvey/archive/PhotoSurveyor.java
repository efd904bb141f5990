package org.diesurvey.archive;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.SortedMap;
import org.diesurvey.Supported;
import org.diesurvey.files.Checksums;

/**
 * Surveys single photographs into folders; safe for several threads. Where the work is done by
 * another process, that process also seals the folder ({@link Checksums#seal}).
 */
@Supported
public interface PhotoSurveyor extends AutoCloseable {
  /**
   * Surveys a photograph.
   *
   * @param photo what to survey
   * @param folder for the files of the survey; not there before
   * @param created moment to note in the survey
   * @param threads how many it may use
   * @throws org.diesurvey.DieInputException if the photograph cannot be surveyed
   * @throws PhotoFailure if it could not be found out whether it can
   */
  void survey(BatchPhoto photo, Path folder, Instant created, int threads);

  /** SHA-256 of the photograph, hex; empty if it cannot be read, which the survey will explain. */
  default String checksum(BatchPhoto photo) {
    try {
      return Files.isRegularFile(photo.file()) ? Checksums.of(photo.file()) : "";
    } catch (IOException e) {
      return "";
    }
  }

  /** All that a survey depends on besides the photograph, its scale and node, by name. */
  SortedMap<String, String> identity();

  @Override
  void close();
}
