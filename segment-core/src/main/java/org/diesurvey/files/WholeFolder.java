package org.diesurvey.files;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;

/**
 * A folder of results that appears complete or not at all. An earlier result is replaced if it
 * carries our mark; what somebody laid beside it, or changed in it, is never replaced or removed.
 */
public final class WholeFolder {
  private WholeFolder() {}

  /** Work that fills a folder. */
  public interface Filling {
    /** Writes the files, all of them. */
    void fill(Path folder) throws IOException;
  }

  /**
   * Why a result cannot be written to a folder; empty if it can.
   *
   * @param folder where to write
   * @param kind of the result
   * @param read what the call reads
   */
  public static Optional<DieInputException> refusal(Path folder, ResultKind kind, ReadFiles read) {
    Path target = folder.toAbsolutePath().normalize();
    Optional<String> why;
    try {
      why = why(target, kind, read);
    } catch (IOException | UncheckedIOException e) {
      why = Optional.of("this folder cannot be read; choose another output folder.");
    }
    return why.map(w -> refused(folder + ": " + w, null));
  }

  private static Optional<String> why(Path target, ResultKind kind, ReadFiles read)
      throws IOException {
    if (!Disk.there(target)) {
      return Optional.empty();
    }
    if (Files.isSymbolicLink(target)) {
      return Optional.of(
          "this is a symbolic link, and nothing is replaced through one; name the folder itself.");
    }
    if (!Disk.isFolder(target)) {
      return Optional.of("this is a file and will not be overwritten; choose another folder.");
    }
    try (Stream<Path> inside = Files.list(target)) {
      if (inside.findAny().isEmpty()) {
        return Optional.empty();
      }
    }
    Optional<OwnFolder> own = OwnFolder.of(target, kind);
    if (own.isEmpty() && ResultKind.tells(target) && !Disk.there(target.resolve(Checksums.LIST))) {
      return Optional.of(
          "the "
              + kind.word()
              + " here has no list of checksums ("
              + Checksums.LIST
              + "), as those of earlier versions, so what somebody changed in it cannot be told; it"
              + " will not be overwritten: move it away or choose another output folder.");
    }
    if (own.isEmpty()) {
      return Optional.of(
          "something that is no "
              + kind.word()
              + " of this program, with its list of checksums, is here already and will not be"
              + " overwritten; move it away or choose another output folder.");
    }
    List<String> changed = own.get().changed();
    if (!changed.isEmpty()) {
      return Optional.of(
          changed.get(0)
              + " in this "
              + kind.word()
              + " was changed since it was written and will not be overwritten; move or rename it,"
              + " or choose another output folder.");
    }
    return own.get().sums().keySet().stream()
        .filter(name -> read.holds(target.resolve(name)))
        .sorted()
        .findFirst()
        .map(
            name ->
                name
                    + " of this "
                    + kind.word()
                    + " is read by the same call and will not be overwritten; choose another output"
                    + " folder.");
  }

  /**
   * Writes a folder, with the list of checksums.
   *
   * @param folder where to write; its parents are created
   * @param kind of the result
   * @param read what the call reads
   * @param filling writes the files
   * @throws DieInputException OUTPUT_NOT_WRITABLE; then the folder is as it was before
   */
  public static void write(Path folder, ResultKind kind, ReadFiles read, Filling filling) {
    Path target = folder.toAbsolutePath().normalize();
    require(folder, kind, read);
    try {
      Disk.folders(target.getParent());
      try (Workplace work = open(target, kind)) {
        require(folder, kind, read);
        Path fresh = Disk.folder(work.fresh());
        filling.fill(fresh);
        Checksums.seal(fresh);
        requireFree(fresh, target, kind);
        work.exchange();
      }
    } catch (IOException | UncheckedIOException e) {
      throw refused(
          folder
              + ": the "
              + kind.word()
              + " cannot be written here; choose a folder that you may write to, on a disk with"
              + " free space.",
          e);
    }
  }

  private static void require(Path folder, ResultKind kind, ReadFiles read) {
    Optional<DieInputException> refusal = refusal(folder, kind, read);
    if (refusal.isPresent()) {
      throw refusal.get();
    }
  }

  private static Workplace open(Path target, ResultKind kind) throws IOException {
    return Workplace.open(target, kind.names())
        .orElseThrow(
            () ->
                refused(
                    target + ": another run is writing this folder; wait for its end or stop it.",
                    null));
  }

  /** No file of the result has the name of one that is somebody's. */
  private static void requireFree(Path fresh, Path target, ResultKind kind) throws IOException {
    if (!Disk.there(target)) {
      return;
    }
    OwnFolder own = OwnFolder.byList(target);
    for (String name : Checksums.sealed(fresh).keySet()) {
      Path top = target.resolve(name).getParent();
      boolean inTheWay = !top.equals(target) && Disk.there(top) && !Disk.isFolder(top);
      if (inTheWay || Disk.there(target.resolve(name)) && !own.owns(name)) {
        throw inTheWay(target, name, kind);
      }
    }
  }

  /**
   * Why a result cannot be put in place; empty if it can. Unlike {@link #refusal} this asks no
   * whole mark: where files of an earlier result are missing, the others are still ours.
   */
  public static Optional<DieInputException> refusalToPut(Path folder, ResultKind kind) {
    Path target = folder.toAbsolutePath().normalize();
    if (!Disk.there(target)) {
      return Optional.empty();
    }
    if (!Disk.isFolder(target)) {
      return Optional.of(
          refused(target + ": this is no folder and will not be replaced; move it away.", null));
    }
    OwnFolder own = OwnFolder.byList(target);
    return kind.names().stream()
        .filter(name -> !name.equals(Checksums.LIST) || own.sums().isEmpty())
        .filter(name -> Disk.there(target.resolve(name)) && !own.owns(name))
        .findFirst()
        .map(name -> inTheWay(target, name, kind));
  }

  private static DieInputException inTheWay(Path target, String name, ResultKind kind) {
    return refused(
        target
            + ": "
            + name
            + " in this folder is not as the "
            + kind.word()
            + " had it and will not be overwritten; move or rename it, or choose another output"
            + " folder.",
        null);
  }

  /**
   * Puts a complete folder with its list of checksums in place, as {@link #write} does with one
   * that it fills.
   *
   * @param made the complete folder, on the same disk; it is gone afterwards
   * @param folder its place
   * @throws DieInputException OUTPUT_NOT_WRITABLE if something there is not ours; then all is as it
   *     was before
   * @throws IOException if the disk refuses
   */
  public static void put(Path made, Path folder, ResultKind kind) throws IOException {
    Path target = folder.toAbsolutePath().normalize();
    if (!Disk.there(target) && !Disk.there(Workplace.of(target))) {
      Disk.move(made, target);
      return;
    }
    Optional<DieInputException> refusal = refusalToPut(folder, kind);
    if (refusal.isPresent()) {
      throw refusal.get();
    }
    try (Workplace work = open(target, kind)) {
      requireFree(made, target, kind);
      Disk.move(made, work.fresh());
      work.exchange();
    }
  }

  /**
   * Makes order in a folder of results after runs that were ended while they wrote: what they had
   * moved away is put back, what they had begun is removed.
   *
   * @param folder above the folders of results; nothing happens if there is none
   * @return names of the results concerned
   */
  public static Collection<String> restore(Path folder) throws IOException {
    return Files.isDirectory(folder) ? Workplace.restoreAll(folder) : List.of();
  }

  /**
   * Removes from a folder of work in progress what a run that was ended left: files with the names
   * of our results, and folders that are empty then.
   *
   * @param more further names
   */
  public static void removeBegun(Path folder, Set<String> more) throws IOException {
    Set<String> names = new TreeSet<>(more);
    for (ResultKind kind : ResultKind.values()) {
      names.addAll(kind.names());
    }
    names.add(Workplace.NOTE);
    Workplace.removeBegun(folder, names);
  }

  private static DieInputException refused(String message, Throwable cause) {
    return new DieInputException(Reason.OUTPUT_NOT_WRITABLE, message, cause);
  }
}
