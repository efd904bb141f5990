package org.diesurvey.report;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Comparator;
import java.util.List;
import java.util.UUID;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;

/**
 * A folder of results that appears complete or not at all: everything is written to a hidden folder
 * beside it and then renamed.
 */
final class WholeFolder {
  private WholeFolder() {}

  /** Work that fills a folder. */
  interface Filling {
    void fill(Path folder) throws IOException;
  }

  /**
   * Writes a folder. One of an earlier result is replaced, files of other origin in it are kept;
   * any other folder with something in it is refused.
   *
   * @param folder where to write; its parents are created
   * @param what the result in one word, for sentences
   * @param earlier whether an existing folder holds an earlier result
   * @param own whether a file or folder of that name in it is part of the result
   * @param filling writes the files
   * @throws DieInputException OUTPUT_NOT_WRITABLE; then the folder is as it was before
   */
  static void write(
      Path folder, String what, Predicate<Path> earlier, Predicate<String> own, Filling filling) {
    Path target = folder.toAbsolutePath().normalize();
    requireOurs(target, what, earlier);
    String mark = "." + target.getFileName() + "-" + UUID.randomUUID();
    Path fresh = target.resolveSibling(mark + ".new");
    Path old = target.resolveSibling(mark + ".old");
    try {
      Files.createDirectories(target.getParent());
      Files.createDirectory(fresh);
      try {
        filling.fill(fresh);
        replace(target, fresh, old, own);
      } finally {
        delete(fresh);
      }
    } catch (IOException | UncheckedIOException e) {
      throw new DieInputException(
          Reason.OUTPUT_NOT_WRITABLE,
          folder
              + ": the "
              + what
              + " cannot be written here; choose a folder that you may write to, on a disk with"
              + " free space.",
          e);
    }
  }

  private static void requireOurs(Path target, String what, Predicate<Path> earlier) {
    if (!Files.exists(target)) {
      return;
    }
    boolean ours = false;
    if (Files.isDirectory(target)) {
      try (Stream<Path> inside = Files.list(target)) {
        ours = inside.findAny().isEmpty();
      } catch (IOException e) {
        throw new DieInputException(
            Reason.OUTPUT_NOT_WRITABLE,
            target + ": this folder cannot be read; choose another output folder.",
            e);
      }
      ours |= earlier.test(target);
    }
    if (!ours) {
      throw new DieInputException(
          Reason.OUTPUT_NOT_WRITABLE,
          target
              + ": something that is no "
              + what
              + " is here already and will not be overwritten; choose another output folder.");
    }
  }

  private static void replace(Path target, Path fresh, Path old, Predicate<String> own)
      throws IOException {
    boolean before = Files.exists(target);
    if (before) {
      Files.move(target, old, StandardCopyOption.ATOMIC_MOVE);
    }
    try {
      Files.move(fresh, target, StandardCopyOption.ATOMIC_MOVE);
    } catch (IOException e) {
      if (before) {
        Files.move(old, target, StandardCopyOption.ATOMIC_MOVE);
      }
      throw e;
    }
    if (before) {
      keepForeign(old, target, own);
      delete(old);
    }
  }

  /** Notes and pictures that someone laid beside an earlier result move into the new folder. */
  private static void keepForeign(Path old, Path target, Predicate<String> own) throws IOException {
    List<Path> inside;
    try (Stream<Path> all = Files.list(old)) {
      inside = all.filter(p -> !own.test(p.getFileName().toString())).toList();
    }
    for (Path p : inside) {
      Files.move(p, target.resolve(p.getFileName().toString()));
    }
  }

  /** Deletes a folder with all in it, if it is there; links are removed, not followed. */
  private static void delete(Path folder) throws IOException {
    if (!Files.isDirectory(folder)) {
      return;
    }
    List<Path> inside;
    try (Stream<Path> all = Files.walk(folder)) {
      inside = all.sorted(Comparator.reverseOrder()).toList();
    }
    for (Path p : inside) {
      Files.delete(p);
    }
  }
}
