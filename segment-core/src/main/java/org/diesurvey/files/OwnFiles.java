package org.diesurvey.files;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Predicate;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;

/**
 * Files that a call writes by name, and those that belong beside the first. The list of their
 * checksums, FILE.sha256 after the first, is our mark: a file that is there is replaced only if it
 * is in the list and matches. All are complete before the first is in place; while they are put in
 * place the list has the old and the new checksums, so that a run that is ended leaves nothing that
 * the next one does not know.
 */
public final class OwnFiles {
  private static final String LIST = ".sha256";

  private final Path first;
  private final Path folder;
  private final Path list;
  private final Predicate<Path> known;
  private final boolean listed;
  private final ReadFiles read;

  private OwnFiles(
      Path first, Optional<Path> list, Predicate<Path> known, boolean listed, ReadFiles read) {
    this.listed = listed;
    this.first = first.toAbsolutePath().normalize();
    this.folder = this.first.getParent();
    this.list = list.orElseGet(() -> this.first.resolveSibling(this.first.getFileName() + LIST));
    this.known = known;
    this.read = read;
  }

  /**
   * Files named after one.
   *
   * @param first the file that the call names; those beside it are in the same folder
   * @param read what the call reads
   */
  public static OwnFiles of(Path first, ReadFiles read) {
    return new OwnFiles(first, Optional.empty(), file -> false, true, read);
  }

  /**
   * Files of a folder, and below it, that have the list of the folder.
   *
   * @param folder that holds them
   * @param what they are, in one word
   * @param read what the call reads
   */
  public static OwnFiles listed(Path folder, String what, ReadFiles read) {
    Path root = folder.toAbsolutePath().normalize();
    return new OwnFiles(
        root.resolve(what), Optional.of(root.resolve(Checksums.LIST)), file -> false, true, read);
  }

  /**
   * One file that tells by its content that this program wrote it, and that nobody edits; it needs
   * no list.
   *
   * @param known whether a file is such a one, whole
   */
  public static OwnFiles telling(Path file, Predicate<Path> known, ReadFiles read) {
    return new OwnFiles(file, Optional.empty(), known, false, read);
  }

  /**
   * Why files of these names cannot be written; empty if they can.
   *
   * @param names in the folder of the first file
   */
  public Optional<DieInputException> refusal(Set<String> names) {
    if (first.getFileName() == null || Files.isDirectory(first)) {
      return Optional.of(refused(first, "this is a folder; name a file in it.", null));
    }
    SortedMap<String, Set<String>> sums = sums();
    for (String name : names) {
      Optional<String> why = whyAbove(name);
      if (why.isEmpty()) {
        why = why(folder.resolve(name), sums.getOrDefault(name, Set.of()));
      }
      if (why.isPresent()) {
        return Optional.of(refused(folder.resolve(name), why.get(), null));
      }
    }
    if (listed && Disk.there(list) && (!Disk.isFile(list) || sums.isEmpty() || read.holds(list))) {
      return Optional.of(refused(list, NOT_OURS, null));
    }
    return Optional.empty();
  }

  private static final String NOT_OURS =
      "this was not written by this program, or was changed since, and will not be overwritten;"
          + " move it away or choose another name.";

  private Optional<String> whyAbove(String name) {
    Path at = folder;
    for (Path part : Path.of(name)) {
      if (!at.equals(folder) && Disk.there(at) && !Disk.isFolder(at)) {
        return Optional.of(at + " is no folder; move it away.");
      }
      at = at.resolve(part);
    }
    return Optional.empty();
  }

  private Optional<String> why(Path file, Set<String> sums) {
    if (!Disk.there(file)) {
      return Optional.empty();
    }
    if (Files.isSymbolicLink(file)) {
      return Optional.of(
          "this is a symbolic link, and nothing is replaced through one; name the file itself.");
    }
    if (read.holds(file)) {
      return Optional.of(
          "this file is read by the same call and will not be overwritten; choose another name.");
    }
    try {
      boolean ours = Disk.isFile(file) && (sums.contains(Checksums.of(file)) || known.test(file));
      return ours ? Optional.empty() : Optional.of(NOT_OURS);
    } catch (IOException e) {
      return Optional.of(NOT_OURS);
    }
  }

  /** The list as it is; empty if there is none. */
  private SortedMap<String, Set<String>> sums() {
    try {
      return Disk.isFile(list) ? Checksums.read(list) : new TreeMap<>();
    } catch (IOException e) {
      return new TreeMap<>();
    }
  }

  /** Work that fills a folder. */
  public interface Filling {
    /** Writes files of these names, all of them. */
    void fill(Path folder) throws IOException;
  }

  /**
   * Writes the files.
   *
   * @param contents by name, the first file among them
   * @throws DieInputException OUTPUT_NOT_WRITABLE; then nothing was replaced
   */
  public void write(Map<String, byte[]> contents) {
    fill(
        contents.keySet(),
        folder -> {
          for (Map.Entry<String, byte[]> e : contents.entrySet()) {
            Disk.write(folder.resolve(e.getKey()), e.getValue());
          }
        });
  }

  /**
   * Writes files that another makes.
   *
   * @param names of all files, the first file among them
   * @param filling writes them into a folder of this name's own
   * @throws DieInputException OUTPUT_NOT_WRITABLE; then nothing was replaced
   */
  public void fill(Set<String> names, Filling filling) {
    require(names);
    Set<String> written = new TreeSet<>();
    names.forEach(name -> written.add(Path.of(name).getFileName().toString()));
    written.add(list.getFileName().toString());
    try {
      Disk.folders(folder);
      try (Workplace work =
          Workplace.open(first, written)
              .orElseThrow(
                  () ->
                      refused(
                          first,
                          "another run is writing this file; wait for its end or stop it.",
                          null))) {
        require(names);
        Path fresh = Disk.folder(work.fresh());
        filling.fill(fresh);
        Map<String, String> sums = new LinkedHashMap<>();
        for (String name : new TreeSet<>(names)) {
          sums.put(name, Checksums.of(fresh.resolve(name)));
        }
        require(names);
        place(sums, fresh);
      }
    } catch (IOException e) {
      throw refused(
          first,
          "this cannot be written; choose a folder that you may write to, on a disk with free"
              + " space.",
          e);
    }
  }

  private void require(Set<String> names) {
    Optional<DieInputException> refusal = refusal(names);
    if (refusal.isPresent()) {
      throw refusal.get();
    }
  }

  private void place(Map<String, String> sums, Path fresh) throws IOException {
    if (listed) {
      SortedMap<String, Set<String>> both = sums();
      sums.forEach((name, sum) -> both.computeIfAbsent(name, n -> new TreeSet<>()).add(sum));
      putList(fresh, both);
    }
    for (String name : sums.keySet()) {
      Path target = folder.resolve(name);
      Disk.folders(target.getParent());
      Disk.replace(fresh.resolve(name), target);
    }
    if (listed) {
      SortedMap<String, Set<String>> after = sums();
      sums.forEach((name, sum) -> after.put(name, Set.of(sum)));
      putList(fresh, after);
    }
  }

  private void putList(Path fresh, SortedMap<String, Set<String>> sums) throws IOException {
    Path next = fresh.resolve(list.getFileName());
    Disk.write(next, Checksums.text(sums).getBytes(StandardCharsets.UTF_8));
    Disk.replace(next, list);
  }

  private static DieInputException refused(Path file, String why, Throwable cause) {
    return new DieInputException(Reason.OUTPUT_NOT_WRITABLE, file + ": " + why, cause);
  }
}
