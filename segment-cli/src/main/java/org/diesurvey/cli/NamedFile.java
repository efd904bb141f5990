package org.diesurvey.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/** A file that another file names, looked for by its name alone. */
final class NamedFile {
  /** The folder to begin in and two above it. */
  private static final int FOLDERS = 3;

  private NamedFile() {}

  /**
   * Looks for the file.
   *
   * @param named as it stands in the other file, with any folders
   * @param first folders to look into first
   * @param start folder to begin in otherwise; null for none
   */
  static Optional<Path> find(String named, List<Path> first, Path start) {
    // Only the name counts: a file from elsewhere must not lead to other places.
    Path name = Path.of(named.replace('\\', '/').replace("\0", "")).getFileName();
    if (name == null) {
      return Optional.empty();
    }
    for (Path folder : first) {
      if (Files.isRegularFile(folder.resolve(name))) {
        return Optional.of(folder.resolve(name));
      }
    }
    Path folder = start;
    for (int i = 0; i < FOLDERS && folder != null; i++) {
      if (Files.isRegularFile(folder.resolve(name))) {
        return Optional.of(folder.resolve(name));
      }
      folder = folder.getParent();
    }
    return Optional.empty();
  }
}
