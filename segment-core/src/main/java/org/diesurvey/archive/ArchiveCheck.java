package org.diesurvey.archive;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;

/** Holds the files of an archive against its database. */
public final class ArchiveCheck {
  private ArchiveCheck() {}

  /**
   * What is wrong with a file.
   *
   * @param path below the archive
   * @param fault what is wrong
   */
  public record Finding(String path, Fault fault) {}

  /** What can be wrong. */
  public enum Fault {
    MISSING,
    ALTERED,
    /** Not known to the database; found but harmless. */
    UNKNOWN
  }

  /**
   * The result.
   *
   * @param surveys known to the database
   * @param files that were held against their checksum
   * @param findings by path; empty if all is well
   */
  public record Result(int surveys, int files, List<Finding> findings) {
    /** Copies the list. */
    public Result {
      findings = List.copyOf(findings);
    }
  }

  /**
   * Checks the database itself (SQLite's integrity_check), every file of every survey, and the
   * pages and tables.
   *
   * @throws DieInputException FILE_MISSING if there is no archive, DOCUMENT_INVALID if the database
   *     is damaged, FILE_UNREADABLE if files cannot be read
   */
  public static Result of(Path archive) {
    Path root = archive.toAbsolutePath().normalize();
    String integrity =
        ArchiveTable.read(root, "PRAGMA integrity_check", List.of()).text(0, "integrity_check");
    if (!integrity.equals("ok")) {
      throw new DieInputException(
          Reason.DOCUMENT_INVALID,
          root + ": the database is damaged (" + integrity + "); take it from a copy.");
    }
    ArchiveTable rows =
        ArchiveTable.read(
            root,
            "SELECT p.folder, f.name, f.sha256 FROM file f JOIN photo p USING (photo_id)"
                + " ORDER BY p.folder, f.name",
            List.of());
    Map<String, Set<String>> known = new HashMap<>();
    Map<String, SortedMap<String, String>> lists = new TreeMap<>();
    List<Finding> findings = new ArrayList<>();
    try {
      for (int i = 0; i < rows.rows().size(); i++) {
        String folder = rows.text(i, "folder");
        String name = rows.text(i, "name");
        known.computeIfAbsent(folder, f -> new HashSet<>(Set.of(Checksums.LIST))).add(name);
        lists.computeIfAbsent(folder, f -> new TreeMap<>()).put(name, rows.text(i, "sha256"));
        Path file = root.resolve(ArchiveFolder.PHOTOS).resolve(folder).resolve(name);
        hold(root, file, rows.text(i, "sha256"), findings);
      }
      for (var list : lists.entrySet()) {
        Path file = root.resolve(ArchiveFolder.PHOTOS).resolve(list.getKey());
        String sum = Checksums.of(Checksums.list(list.getValue()));
        hold(root, file.resolve(Checksums.LIST), sum, findings);
      }
      pages(root, findings);
      strangers(root, known, findings);
    } catch (IOException e) {
      throw new DieInputException(
          Reason.FILE_UNREADABLE, root + ": a file of the archive cannot be read.", e);
    }
    return new Result(known.size(), rows.rows().size(), findings);
  }

  private static void hold(Path root, Path file, String sha256, List<Finding> findings)
      throws IOException {
    if (!Files.isRegularFile(file)) {
      findings.add(new Finding(below(root, file), Fault.MISSING));
    } else if (!Checksums.of(file).equals(sha256)) {
      findings.add(new Finding(below(root, file), Fault.ALTERED));
    }
  }

  /** Index, summary, tables and description, which a run makes at its end. */
  private static void pages(Path root, List<Finding> findings) throws IOException {
    if (!Files.isRegularFile(root.resolve(Checksums.LIST))) {
      findings.add(new Finding(Checksums.LIST, Fault.MISSING));
      return;
    }
    for (var page : Checksums.sealed(root).entrySet()) {
      hold(root, root.resolve(page.getKey()), page.getValue(), findings);
    }
  }

  private static void strangers(Path root, Map<String, Set<String>> known, List<Finding> findings)
      throws IOException {
    Path photos = root.resolve(ArchiveFolder.PHOTOS);
    if (!Files.isDirectory(photos)) {
      return;
    }
    try (Stream<Path> all = Files.walk(photos)) {
      for (Path p : all.filter(Files::isRegularFile).sorted().toList()) {
        Path inside = photos.relativize(p);
        boolean expected =
            inside.getNameCount() == 2
                && known
                    .getOrDefault(inside.getName(0).toString(), Set.of())
                    .contains(inside.getName(1).toString());
        if (!expected) {
          findings.add(new Finding(below(root, p), Fault.UNKNOWN));
        }
      }
    }
  }

  private static String below(Path root, Path file) {
    return root.relativize(file).toString().replace('\\', '/');
  }
}
