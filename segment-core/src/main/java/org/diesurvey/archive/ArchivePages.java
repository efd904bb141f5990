package org.diesurvey.archive;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;

/** Everything in an archive that is made from its database. */
public final class ArchivePages {
  private ArchivePages() {}

  /**
   * Makes tables, index, summary and the research object's description anew; each file is replaced
   * whole.
   *
   * @param archive its folder
   * @param created moment to note
   * @throws org.diesurvey.DieInputException FILE_MISSING if there is no archive,
   *     OUTPUT_NOT_WRITABLE if it cannot be written
   */
  public static void write(Path archive, Instant created) {
    Path root = archive.toAbsolutePath().normalize();
    try {
      TableFiles.write(root);
      DurableFiles.write(root.resolve(IndexPage.FILE), IndexPage.html(root));
      BatchPages.write(root, created);
      DurableFiles.write(root.resolve(CrateMetadata.FILE), CrateMetadata.text(root, created));
    } catch (IOException e) {
      throw ArchiveFolder.refused(root + ": the pages of the archive cannot be written.", e);
    }
  }
}
