package org.diesurvey.archive.run;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.archive.pages.ArchivePages;
import org.diesurvey.archive.query.ArchiveTable;
import org.diesurvey.archive.store.ArchiveDatabase;
import org.diesurvey.archive.store.ArchiveFolder;
import org.diesurvey.archive.store.ArchiveMarker;
import org.diesurvey.archive.store.ArchivePlace;
import org.diesurvey.archive.store.DatabaseRebuild;
import org.diesurvey.archive.store.PhotoFolders;
import org.diesurvey.files.Checksums;
import org.diesurvey.files.Disk;

/** Holds the files of an archive against its database and its lists of checksums. */
public final class ArchiveCheck {
  private final Path root;
  private final List<Finding> findings = new ArrayList<>();
  private final SortedMap<String, SortedMap<String, String>> lists = new TreeMap<>();
  private int files;

  private ArchiveCheck(Path root) {
    this.root = root;
  }

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
    /** A complete survey that the database does not know; the next batch notes it. */
    UNNOTED,
    /** Not of the archive; never touched. */
    UNKNOWN
  }

  /**
   * The result.
   *
   * @param surveys known to the database
   * @param files that were held against their checksum
   * @param findings by path; empty if all is well
   * @param remarks what was put in order, and what the next batch would do, in sentences
   */
  public record Result(int surveys, int files, List<Finding> findings, List<String> remarks) {
    /** Copies the lists. */
    public Result {
      findings = List.copyOf(findings);
      remarks = List.copyOf(remarks);
    }
  }

  /**
   * Checks the database itself (SQLite's quick_check), every file of every survey, and the pages
   * and tables. What a run that was ended left half done is put in order first, unless a run is at
   * work.
   *
   * @throws DieInputException FILE_MISSING if there is no archive, FILE_UNREADABLE if files cannot
   *     be read
   */
  public static Result of(Path archive) {
    Path root = archive.toAbsolutePath().normalize();
    if (!ArchiveMarker.marks(root) && !Files.exists(root.resolve(ArchiveFolder.DATABASE))) {
      throw new DieInputException(
          Reason.FILE_MISSING,
          root + ": there is no archive here; name the folder given to batch.");
    }
    try {
      return new ArchiveCheck(root).result();
    } catch (IOException e) {
      throw new DieInputException(
          Reason.FILE_UNREADABLE, root + ": a file of the archive cannot be read.", e);
    }
  }

  private Result result() throws IOException {
    List<String> remarks = new ArrayList<>();
    if (!ArchiveMarker.marks(root)) {
      findings.add(new Finding(ArchiveMarker.FILE, Fault.MISSING));
      remarks.add(
          ArchiveMarker.FILE
              + " is missing, so a batch would refuse this folder; "
              + ArchiveMarker.ADVICE
              + ".");
    }
    Optional<List<String>> order = ArchiveFolder.putInOrder(root);
    order
        .filter(names -> !names.isEmpty())
        .ifPresent(
            names ->
                remarks.add(
                    "put in order what a run that was ended had left: "
                        + String.join(", ", names)));
    DatabaseRebuild.Plan plan =
        DatabaseRebuild.plan(
            root.resolve(ArchiveFolder.DATABASE),
            new PhotoFolders(root.resolve(ArchiveFolder.PHOTOS)));
    plan.sentence("will be rebuilt by the next batch").ifPresent(remarks::add);
    database(plan);
    for (ArchivePlace.Complete c : plan.unknown()) {
      lists.put(c.name(), c.read().filed().sums());
      findings.add(new Finding(ArchiveFolder.PHOTOS + "/" + c.name(), Fault.UNNOTED));
    }
    for (var list : lists.entrySet()) {
      surveyFiles(list.getKey(), list.getValue());
    }
    pages();
    strangers(order.isPresent());
    return new Result(plan.known().size(), files, findings, remarks);
  }

  private void database(DatabaseRebuild.Plan plan) {
    if (plan.state() != ArchiveDatabase.State.OURS) {
      Fault fault = plan.state() == ArchiveDatabase.State.MISSING ? Fault.MISSING : Fault.ALTERED;
      findings.add(new Finding(ArchiveFolder.DATABASE, fault));
      return;
    }
    ArchiveTable rows =
        ArchiveTable.read(
            root,
            "SELECT p.folder, f.name, f.sha256 FROM file f JOIN photo p USING (photo_id)",
            List.of());
    for (int i = 0; i < rows.rows().size(); i++) {
      lists
          .computeIfAbsent(rows.text(i, "folder"), f -> new TreeMap<>())
          .put(rows.text(i, "name"), rows.text(i, "sha256"));
    }
  }

  private void surveyFiles(String folder, Map<String, String> sums) throws IOException {
    Path there = root.resolve(ArchiveFolder.PHOTOS).resolve(folder);
    for (var sum : sums.entrySet()) {
      hold(there.resolve(sum.getKey()), sum.getValue());
      files++;
    }
    hold(there.resolve(Checksums.LIST), Checksums.of(Checksums.list(sums)));
  }

  private void hold(Path file, String sha256) throws IOException {
    if (!Disk.isFile(file)) {
      findings.add(new Finding(below(file), Disk.there(file) ? Fault.ALTERED : Fault.MISSING));
    } else if (!Checksums.of(file).equals(sha256)) {
      findings.add(new Finding(below(file), Fault.ALTERED));
    }
  }

  /** Index, summary, tables and description, which a run makes at its end. */
  private void pages() throws IOException {
    Path list = root.resolve(Checksums.LIST);
    if (!Disk.isFile(list)) {
      findings.add(new Finding(Checksums.LIST, Fault.MISSING));
      return;
    }
    try {
      for (var page : Checksums.sealed(root).entrySet()) {
        hold(root.resolve(page.getKey()), page.getValue());
      }
    } catch (IOException e) {
      findings.add(new Finding(Checksums.LIST, Fault.ALTERED));
    }
  }

  private void strangers(boolean atRest) throws IOException {
    Set<String> own = new HashSet<>(ArchivePages.ALL.names());
    own.addAll(List.of(ArchiveMarker.FILE, ArchiveFolder.LOCK, Checksums.LIST));
    ArchiveDatabase.ENDINGS.forEach(ending -> own.add(ArchiveFolder.DATABASE + ending));
    if (!atRest) {
      own.add(ArchiveFolder.WORK);
    }
    strangers(root, own, Set.of(ArchiveFolder.PHOTOS, ArchiveFolder.TABLES), atRest);
    Path tables = root.resolve(ArchiveFolder.TABLES);
    Set<String> names = new HashSet<>();
    ArchivePages.ALL.names().forEach(n -> names.add(n.substring(n.indexOf('/') + 1)));
    strangers(tables, names, Set.of(), atRest);
    Path photos = root.resolve(ArchiveFolder.PHOTOS);
    strangers(photos, Set.of(), lists.keySet(), atRest);
    for (var list : lists.entrySet()) {
      Set<String> known = new HashSet<>(list.getValue().keySet());
      known.add(Checksums.LIST);
      strangers(photos.resolve(list.getKey()), known, Set.of(), atRest);
    }
  }

  private void strangers(Path folder, Set<String> own, Set<String> folders, boolean atRest)
      throws IOException {
    if (!Disk.isFolder(folder)) {
      return;
    }
    List<Path> inside;
    try (Stream<Path> all = Files.list(folder)) {
      inside = all.sorted().toList();
    }
    for (Path p : inside) {
      String name = p.getFileName().toString();
      boolean expected = Disk.isFolder(p) ? folders.contains(name) : own.contains(name);
      boolean inWork = !atRest && (own.contains(name) || name.endsWith(".diesurvey"));
      if (!expected && !inWork) {
        findings.add(new Finding(below(p) + (Disk.isFolder(p) ? "/" : ""), Fault.UNKNOWN));
      }
    }
  }

  private String below(Path file) {
    return root.relativize(file).toString().replace('\\', '/');
  }
}
