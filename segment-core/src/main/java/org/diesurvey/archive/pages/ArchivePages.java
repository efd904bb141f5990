package org.diesurvey.archive.pages;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.diesurvey.DieInputException;
import org.diesurvey.archive.query.ArchiveTable;
import org.diesurvey.archive.store.ArchiveFolder;
import org.diesurvey.archive.store.DerivedFiles;
import org.diesurvey.files.Disk;
import org.diesurvey.files.ReadFiles;

/** Everything in an archive that is made from its database. */
public final class ArchivePages implements DerivedFiles {
  /** All of them. */
  public static final ArchivePages ALL = new ArchivePages();

  private ArchivePages() {}

  @Override
  public List<String> names() {
    List<String> names = new ArrayList<>();
    names.addAll(
        List.of(IndexPage.FILE, BatchPages.REPORT, BatchPages.REPORT_PDF, CrateMetadata.FILE));
    names.add(TableFiles.FOLDER + "/" + TableFiles.DESCRIPTION);
    TableFiles.TABLES.keySet().forEach(t -> names.add(TableFiles.FOLDER + "/" + t + ".csv"));
    return names;
  }

  /**
   * Makes tables, index, summary and the research object's description again, and the list of their
   * checksums. Files that somebody changed are not replaced.
   *
   * @param archive its folder
   * @param created moment to note
   * @throws DieInputException FILE_MISSING if there is no archive, OUTPUT_NOT_WRITABLE if it cannot
   *     be written, or a run is writing to it
   */
  public static void write(Path archive, Instant created) {
    Path root = archive.toAbsolutePath().normalize();
    ArchiveTable.read(root, "SELECT count(*) FROM photo", List.of());
    try (ArchiveFolder held = ArchiveFolder.open(root, ReadFiles.NONE, ALL)) {
      held.finish(ALL, created);
    }
  }

  @Override
  public List<String> sources(Path root) {
    return BatchPages.onSheet(root);
  }

  @Override
  public void make(Path root, Path folder, Instant created) throws IOException {
    TableFiles.write(root, folder);
    Disk.write(folder.resolve(IndexPage.FILE), utf8(IndexPage.html(root)));
    BatchPages.write(root, folder, created);
    Disk.write(folder.resolve(CrateMetadata.FILE), utf8(CrateMetadata.text(root, folder, created)));
  }

  private static byte[] utf8(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }
}
