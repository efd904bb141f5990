package org.diesurvey.archive;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.diesurvey.DieInputException;
import org.diesurvey.files.Disk;
import org.diesurvey.files.OwnFiles;
import org.diesurvey.files.ReadFiles;

/** Everything in an archive that is made from its database. */
public final class ArchivePages {
  private ArchivePages() {}

  /** Names of the files, without the list of their checksums. */
  static List<String> names() {
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
    try (ArchiveFolder held = ArchiveFolder.open(root, ReadFiles.NONE)) {
      put(held.root(), created);
    }
  }

  /** The same for a run that holds the archive. */
  static void put(Path root, Instant created) {
    files(root, ReadFiles.NONE).fill(Set.copyOf(names()), fresh -> make(root, fresh, created));
  }

  /** Writes the files of an archive into another folder. */
  static void make(Path root, Path folder, Instant created) throws IOException {
    TableFiles.write(root, folder);
    Disk.write(folder.resolve(IndexPage.FILE), utf8(IndexPage.html(root)));
    BatchPages.write(root, folder, created);
    Disk.write(folder.resolve(CrateMetadata.FILE), utf8(CrateMetadata.text(root, folder, created)));
  }

  private static byte[] utf8(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }

  /** Why the pages cannot be written; empty if they can. */
  static Optional<DieInputException> refusal(Path root, ReadFiles read) {
    return files(root, read).refusal(Set.copyOf(names()));
  }

  private static OwnFiles files(Path root, ReadFiles read) {
    return OwnFiles.listed(root, "pages", read);
  }
}
