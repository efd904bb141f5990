package org.diesurvey.archive;

import java.nio.file.Path;
import java.time.Instant;

/** Everything in an archive that is made from its database. */
final class ArchivePages {
  private ArchivePages() {}

  /** Makes tables, pages and descriptions anew. */
  static void write(Path root, Instant created) {
    // filled below
  }
}
