package org.diesurvey.archive;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Instant;
import java.util.HashMap;
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.stream.Stream;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.report.SurveyFolder;
import org.diesurvey.survey.SurveyJson;

/**
 * The folder of an archive, held by one run at a time. What a run that was stopped left half done
 * is removed when the next one opens it.
 */
final class ArchiveFolder implements ArchivePlace {
  /** The database. */
  static final String DATABASE = "archive.sqlite";

  /** Folder that holds one folder for each survey. */
  static final String PHOTOS = "photos";

  private static final String WORK = ".work";
  private static final String LOCK = ".lock";

  private final Path root;
  private final FileChannel channel;
  private final FileLock lock;

  /**
   * Another one in every run: a worker process that outlives its run cannot write into the next.
   */
  private final Path work;

  private ArchiveFolder(Path root, FileChannel channel, FileLock lock) {
    this.root = root;
    this.channel = channel;
    this.lock = lock;
    work = root.resolve(WORK).resolve(java.util.UUID.randomUUID().toString());
  }

  /**
   * Opens an archive for writing; makes it if the folder is empty or not there.
   *
   * @throws DieInputException OUTPUT_NOT_WRITABLE if it cannot be written, holds something else, or
   *     another run holds it
   */
  static ArchiveFolder open(Path folder) {
    Path root = folder.toAbsolutePath().normalize();
    try {
      Files.createDirectories(root);
      if (!Files.exists(root.resolve(DATABASE)) && !emptyButForOurs(root)) {
        throw refused(
            root + ": this folder holds something that is no archive; choose another folder.",
            null);
      }
      FileChannel channel =
          FileChannel.open(root.resolve(LOCK), StandardOpenOption.CREATE, StandardOpenOption.WRITE);
      FileLock lock = null;
      try {
        lock = channel.tryLock();
      } catch (OverlappingFileLockException e) {
        // Held by another run in this process; told below.
      }
      if (lock == null) {
        channel.close();
        throw refused(
            root + ": another run is writing to this archive; wait for its end or stop it.", null);
      }
      ArchiveFolder archive = new ArchiveFolder(root, channel, lock);
      archive.clean();
      Files.createDirectories(archive.work);
      Files.createDirectories(root.resolve(PHOTOS));
      return archive;
    } catch (IOException e) {
      throw refused(
          root + ": an archive cannot be written here; choose a folder that you may write to.", e);
    }
  }

  private static boolean emptyButForOurs(Path root) throws IOException {
    try (Stream<Path> inside = Files.list(root)) {
      for (Path p : inside.toList()) {
        String name = p.getFileName().toString();
        boolean ours = name.equals(LOCK) || name.equals(WORK) || name.equals(PHOTOS) && bare(p);
        if (!ours) {
          return false;
        }
      }
      return true;
    }
  }

  /**
   * Whether this is a folder with nothing in it, and no link to one: photographs are a person's.
   */
  private static boolean bare(Path folder) throws IOException {
    if (!Files.isDirectory(folder, LinkOption.NOFOLLOW_LINKS)) {
      return false;
    }
    try (Stream<Path> inside = Files.list(folder)) {
      return inside.findAny().isEmpty();
    }
  }

  static DieInputException refused(String message, Throwable cause) {
    return new DieInputException(Reason.OUTPUT_NOT_WRITABLE, message, cause);
  }

  private void clean() {
    try {
      DurableFiles.delete(root.resolve(WORK));
    } catch (IOException e) {
      // A worker process that is about to end may still write here; the next run cleans up.
    }
  }

  @Override
  public Path root() {
    return root;
  }

  @Override
  public String shown() {
    return root.toString();
  }

  /**
   * A photograph's place seen from the archive, with slashes: "../trays/die.tif". It stays right if
   * both are moved together, and tells nothing of the folders above them. The URI of one in a
   * store, the whole path of one on another drive.
   */
  @Override
  public String seen(BatchPhoto photo) {
    Path file = photo.file();
    return photo.stored().isPresent() || !root.getRoot().equals(file.getRoot())
        ? photo.place()
        : root.relativize(file).toString().replace('\\', '/');
  }

  @Override
  public Path work(String name) {
    return work.resolve(name);
  }

  @Override
  public Path photo(String name) {
    return root.resolve(PHOTOS).resolve(name);
  }

  /** Removes complete folders that the database does not know: their run was stopped too early. */
  @Override
  public void tidy(Set<String> known) throws IOException {
    try (Stream<Path> inside = Files.list(root.resolve(PHOTOS))) {
      for (Path p : inside.toList()) {
        if (!known.contains(p.getFileName().toString())) {
          DurableFiles.delete(p);
        }
      }
    }
  }

  @Override
  public boolean holds(String name) {
    return Files.isRegularFile(photo(name).resolve(Checksums.LIST));
  }

  @Override
  public Filed keep(Path work, String name) throws IOException {
    Checksums.seal(work);
    SortedMap<String, String> sums = Checksums.sealed(work);
    Map<String, Long> bytes = new HashMap<>();
    for (String file : sums.keySet()) {
      bytes.put(file, Files.size(work.resolve(file)));
    }
    DurableFiles.moveFolder(work, photo(name));
    return new Filed(SurveyJson.read(photo(name).resolve(SurveyFolder.SURVEY)), bytes, sums);
  }

  @Override
  public void finish(Instant created, boolean whole) {
    ArchivePages.write(root, created);
  }

  @Override
  public void close() {
    try {
      clean();
      lock.release();
      channel.close();
    } catch (IOException e) {
      throw refused(root + ": the archive cannot be closed.", e);
    }
  }
}
