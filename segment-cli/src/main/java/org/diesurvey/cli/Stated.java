package org.diesurvey.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/** Files that options name. */
final class Stated {
  private Stated() {}

  /** Those that were given. */
  @SafeVarargs
  static List<Path> files(Optional<Path>... options) {
    return Stream.of(options).flatMap(Optional::stream).toList();
  }
}
