package org.diesurvey.archive;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;

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
   * Makes tables, index, summary and the research object's description again; each file is replaced
   * whole. A list of their checksums follows.
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
      SortedMap<String, String> sums = new TreeMap<>();
      for (String name : names()) {
        sums.put(name, Checksums.of(root.resolve(name)));
      }
      DurableFiles.write(root.resolve(Checksums.LIST), Checksums.list(sums));
    } catch (IOException e) {
      throw ArchiveFolder.refused(root + ": the pages of the archive cannot be written.", e);
    }
  }
}
