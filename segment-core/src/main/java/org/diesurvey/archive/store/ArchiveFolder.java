package org.diesurvey.archive.store;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.archive.BatchPhoto;
import org.diesurvey.files.Checksums;
import org.diesurvey.files.Disk;
import org.diesurvey.files.OwnFiles;
import org.diesurvey.files.OwnFolder;
import org.diesurvey.files.ReadFiles;
import org.diesurvey.files.ResultKind;
import org.diesurvey.files.WholeFolder;

/**
 * The folder of an archive, held by one run at a time. What a run that was stopped left half done
 * is put in order when the next one opens it; nothing else is ever removed.
 */
public final class ArchiveFolder implements ArchivePlace {
  /** The database. */
  public static final String DATABASE = "archive.sqlite";

  /** Folder that holds one folder for each survey. */
  public static final String PHOTOS = "photos";

  /** Folder that holds the tables. */
  public static final String TABLES = "tables";

  public static final String WORK = ".work";
  public static final String LOCK = ".lock";

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
   * @param read what the call reads
   * @param derived what the run will make from the database
   * @throws DieInputException OUTPUT_NOT_WRITABLE if it cannot be written, holds something else, or
   *     another run holds it
   */
  public static ArchiveFolder open(Path folder, ReadFiles read, DerivedFiles derived) {
    Path root = folder.toAbsolutePath().normalize();
    try {
      begin(root);
      requireNoLinks(root);
      ArchiveFolder archive = held(root);
      try {
        archive.restore();
        Optional<DieInputException> refusal = own(root, read).refusal(Set.copyOf(derived.names()));
        if (refusal.isPresent()) {
          throw refusal.get();
        }
        if (read.holds(root.resolve(DATABASE))) {
          throw refused(root + ": the database of this archive is read by the same call.", null);
        }
        Disk.folders(root.resolve(PHOTOS));
        Disk.folders(archive.work);
        for (String ending : ArchiveDatabase.ENDINGS) {
          Disk.separate(root.resolve(DATABASE + ending), archive.work.resolve(DATABASE + ending));
        }
        return archive;
      } catch (IOException | RuntimeException | Error e) {
        archive.letGo();
        throw e;
      }
    } catch (IOException e) {
      throw refused(
          root + ": an archive cannot be written here; choose a folder that you may write to.", e);
    }
  }

  private static void begin(Path root) throws IOException {
    if (ArchiveMarker.marks(root)) {
      return;
    }
    if (Files.isDirectory(root) ? !ArchiveMarker.mayBegin(root) : Disk.there(root)) {
      throw refused(
          root
              + ": this is no archive (it has no "
              + ArchiveMarker.FILE
              + ") and not an empty folder, so nothing is written here; choose another folder, or "
              + ArchiveMarker.ADVICE
              + ".",
          null);
    }
    Disk.folders(root);
    Disk.complete(root.resolve(ArchiveMarker.FILE), ArchiveMarker.TEXT);
  }

  /** What we write in an archive lies in it, not elsewhere. */
  private static void requireNoLinks(Path root) {
    List<String> names = new ArrayList<>(List.of(PHOTOS, WORK, LOCK, TABLES));
    ArchiveDatabase.ENDINGS.forEach(ending -> names.add(DATABASE + ending));
    for (String name : names) {
      if (Files.isSymbolicLink(root.resolve(name))) {
        throw refused(
            root.resolve(name)
                + ": this is a symbolic link, and nothing in an archive is written through one; put"
                + " the file or folder itself here.",
            null);
      }
    }
  }

  private static ArchiveFolder held(Path root) throws IOException {
    FileChannel channel = Disk.lockable(root.resolve(LOCK));
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
    return new ArchiveFolder(root, channel, lock);
  }

  public static DieInputException refused(String message, Throwable cause) {
    return new DieInputException(Reason.OUTPUT_NOT_WRITABLE, message, cause);
  }

  /**
   * Puts in order what ended runs left in an archive, unless a run is at work in it. Without a lock
   * file no run has written here: the folder of an object store, in which a lock file would keep
   * the next run out.
   *
   * @return what was put in order; empty if a run is at work, or the archive cannot be written
   */
  public static Optional<List<String>> putInOrder(Path root) {
    if (!ArchiveMarker.marks(root)) {
      return Optional.empty();
    }
    try {
      requireNoLinks(root);
      if (!Disk.there(root.resolve(LOCK))) {
        return Optional.of(List.of());
      }
      ArchiveFolder archive = held(root);
      try {
        return Optional.of(archive.restore());
      } finally {
        archive.letGo();
      }
    } catch (IOException | DieInputException e) {
      return Optional.empty();
    }
  }

  private List<String> restore() throws IOException {
    List<String> restored = new ArrayList<>();
    Path photos = root.resolve(PHOTOS);
    if (Disk.isFolder(photos)) {
      WholeFolder.restore(photos).forEach(name -> restored.add(PHOTOS + "/" + name));
    }
    restored.addAll(WholeFolder.restore(root));
    if (Disk.isFolder(root.resolve(WORK))) {
      restored.add(WORK);
    }
    clean();
    return restored;
  }

  private void clean() {
    try {
      Set<String> copies = new HashSet<>();
      ArchiveDatabase.ENDINGS.forEach(ending -> copies.add(DATABASE + ending));
      WholeFolder.removeBegun(root.resolve(WORK), copies);
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

  @Override
  public Set<String> names() throws IOException {
    return new PhotoFolders(root.resolve(PHOTOS)).names();
  }

  @Override
  public List<Complete> unknown(Set<String> known) throws IOException {
    return new PhotoFolders(root.resolve(PHOTOS)).unknown(known);
  }

  @Override
  public boolean holds(String name) {
    return OwnFolder.of(photo(name), ResultKind.SURVEY).isPresent();
  }

  @Override
  public Optional<DieInputException> refusal(String name) {
    return WholeFolder.refusalToPut(photo(name), ResultKind.SURVEY);
  }

  @Override
  public Filed keep(Path work, String name, ArchivedPhotograph note) throws IOException {
    Checksums.seal(work);
    Checksums.add(work, ArchivedPhotograph.FILE, note.json());
    WholeFolder.put(work, photo(name), ResultKind.SURVEY);
    return PhotoFolders.filed(photo(name));
  }

  @Override
  public void setAsideDatabase() throws IOException {
    setAside(root);
  }

  /** Gives a database and what lies beside it names that nothing has. */
  static String setAside(Path root) throws IOException {
    int n = 1;
    while (Disk.there(root.resolve(DATABASE + ".set-aside-" + n))) {
      n++;
    }
    String name = DATABASE + ".set-aside-" + n;
    for (String ending : ArchiveDatabase.ENDINGS) {
      if (Disk.there(root.resolve(DATABASE + ending))) {
        Disk.move(root.resolve(DATABASE + ending), root.resolve(name + ending));
      }
    }
    return name;
  }

  @Override
  public void finish(DerivedFiles derived, Instant created) {
    own(root, ReadFiles.NONE)
        .fill(Set.copyOf(derived.names()), fresh -> derived.make(root, fresh, created));
  }

  private static OwnFiles own(Path root, ReadFiles read) {
    return OwnFiles.listed(root, "pages", read);
  }

  @Override
  public void close() {
    try {
      try {
        clean();
      } finally {
        letGo();
      }
    } catch (IOException e) {
      throw refused(root + ": the archive cannot be closed.", e);
    }
  }

  private void letGo() throws IOException {
    lock.release();
    channel.close();
  }
}
