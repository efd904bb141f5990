package org.diesurvey.files;

import java.io.FilterOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;

/**
 * The single steps by which the library changes a disk; it has no others (ArchitectureTest). None
 * replaces or empties a file, but {@link #replace}, which {@link OwnFiles} and {@link OwnFolder}
 * call for files with the mark. Files have the ordinary mode of the user (umask).
 */
public final class Disk {
  /** Told before and after every step; tests end a run there. */
  interface Watch {
    void step(String what, Path file) throws IOException;
  }

  private static volatile Watch watch = (what, file) -> {};

  private Disk() {}

  /** Who is told of steps from now on. */
  static void watchedBy(Watch watcher) {
    watch = watcher;
  }

  private static void step(String what, Path file) throws IOException {
    watch.step(what, file);
  }

  /** Whether there is anything of that name, a link that leads nowhere too. */
  public static boolean there(Path path) {
    return Files.exists(path, LinkOption.NOFOLLOW_LINKS);
  }

  /** Whether it is a folder itself, not a link to one. */
  public static boolean isFolder(Path path) {
    return Files.isDirectory(path, LinkOption.NOFOLLOW_LINKS);
  }

  /** Whether it is a file itself, not a link to one. */
  public static boolean isFile(Path path) {
    return Files.isRegularFile(path, LinkOption.NOFOLLOW_LINKS);
  }

  /** Makes a folder and those above it, where they are missing. */
  public static Path folders(Path folder) throws IOException {
    if (!Files.isDirectory(folder)) {
      step("make", folder);
      Files.createDirectories(folder);
      step("made", folder);
    }
    return folder;
  }

  /** Makes a folder that is not there yet. */
  public static Path folder(Path folder) throws IOException {
    step("make", folder);
    Files.createDirectory(folder);
    step("made", folder);
    return folder;
  }

  /** Opens a file that is not there yet; fails if anything of that name is. */
  public static OutputStream create(Path file) throws IOException {
    step("create", file);
    OutputStream out =
        Files.newOutputStream(file, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
    return new FilterOutputStream(out) {
      private boolean begun;

      @Override
      public void write(byte[] bytes, int from, int length) throws IOException {
        if (!begun) {
          step("write", file);
          begun = true;
        }
        this.out.write(bytes, from, length);
      }

      @Override
      public void close() throws IOException {
        super.close();
        step("written", file);
      }
    };
  }

  /** Writes a file that is not there yet, and forces it to the disk. */
  public static void write(Path file, byte[] bytes) throws IOException {
    try (OutputStream out = create(file)) {
      out.write(bytes, 0, bytes.length);
    }
    force(file);
  }

  /**
   * Writes a file whose text is always the same, or completes one at which a run was ended.
   *
   * @throws FileAlreadyExistsException if something else has its name
   */
  public static void complete(Path file, String text) throws IOException {
    if (there(file)) {
      if (!isFile(file) || !text.startsWith(Files.readString(file, StandardCharsets.UTF_8))) {
        throw new FileAlreadyExistsException(file.toString());
      }
      remove(file);
    }
    write(file, text.getBytes(StandardCharsets.UTF_8));
  }

  /**
   * Renames a file or folder to a name that nothing has; both on one disk.
   *
   * @throws FileAlreadyExistsException if something has it
   */
  public static void move(Path from, Path to) throws IOException {
    if (there(to)) {
      throw new FileAlreadyExistsException(to.toString());
    }
    step("move", to);
    Files.move(from, to, StandardCopyOption.ATOMIC_MOVE);
    forceFolder(to.getParent());
    step("moved", to);
  }

  /** Puts a file in place of one that may be replaced. */
  static void replace(Path fresh, Path file) throws IOException {
    step("replace", file);
    Files.move(fresh, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
    forceFolder(file.getParent());
    step("replaced", file);
  }

  /**
   * Gives a file that has other names too, as a backup by hard links leaves it, bytes of its own,
   * so that writing to it changes nothing under the other names. Nothing happens where the disk
   * does not count names.
   *
   * @param copy name for a copy on the same disk
   */
  public static void separate(Path file, Path copy) throws IOException {
    if (!isFile(file)
        || !file.getFileSystem().supportedFileAttributeViews().contains("unix")
        || !(Files.getAttribute(file, "unix:nlink") instanceof Integer names)
        || names < 2) {
      return;
    }
    try (OutputStream out = create(copy)) {
      Files.copy(file, out);
    }
    force(copy);
    replace(copy, file);
  }

  /** Removes a file that may be removed. */
  static void remove(Path file) throws IOException {
    if (there(file)) {
      step("remove", file);
      Files.deleteIfExists(file);
      step("removed", file);
    }
  }

  /**
   * Removes a folder that is empty.
   *
   * @return false if it is not
   */
  public static boolean removeIfEmpty(Path folder) throws IOException {
    try (Stream<Path> inside = Files.list(folder)) {
      if (inside.findAny().isPresent()) {
        return false;
      }
    } catch (NoSuchFileException e) {
      return true;
    }
    step("remove", folder);
    Files.deleteIfExists(folder);
    step("removed", folder);
    return true;
  }

  /** Makes a folder of a name of its own for temporary files of this run, in another. */
  public static Path temporary(Path parent, String name) throws IOException {
    return Files.createTempDirectory(folders(parent), name);
  }

  /**
   * A file for this run's own numbers, see {@link ScratchFile}: gone when the channel is closed, on
   * most systems already before, so that nothing stays when the process is ended.
   *
   * @param bytes how many it holds; all are zero
   */
  static FileChannel scratch(Path folder, long bytes) throws IOException {
    FileChannel file =
        FileChannel.open(
            Files.createTempFile(folder, "diesurvey-", ".scratch"),
            StandardOpenOption.READ,
            StandardOpenOption.WRITE,
            StandardOpenOption.DELETE_ON_CLOSE);
    // What lies before the last byte reads as zeros, and takes no room yet on most disks.
    file.write(ByteBuffer.allocate(1), bytes - 1);
    return file;
  }

  /** Removes a folder of temporary files that this run of the program has made, with all in it. */
  public static void removeMade(Path folder) throws IOException {
    if (!there(folder)) {
      return;
    }
    List<Path> all;
    try (Stream<Path> walk = Files.walk(folder)) {
      all = walk.sorted(Comparator.reverseOrder()).toList();
    }
    for (Path p : all) {
      step("remove", p);
      Files.deleteIfExists(p);
    }
  }

  /** Opens a file to be locked; makes it where it is missing; never through a link. */
  public static FileChannel lockable(Path file) throws IOException {
    if (!there(file)) {
      step("create", file);
    }
    return FileChannel.open(
        file, StandardOpenOption.CREATE, StandardOpenOption.WRITE, LinkOption.NOFOLLOW_LINKS);
  }

  /** Writes the text of a file that this run has locked anew. */
  static void rewrite(FileChannel channel, Path file, String text) throws IOException {
    step("write", file);
    channel.truncate(0);
    channel.write(ByteBuffer.wrap(text.getBytes(StandardCharsets.UTF_8)), 0);
    step("written", file);
  }

  /** Forces the files below a folder to the disk. */
  static void forceInside(Path folder) throws IOException {
    try (Stream<Path> inside = Files.walk(folder)) {
      for (Path file : inside.filter(Disk::isFile).toList()) {
        force(file);
      }
    }
  }

  private static void force(Path file) throws IOException {
    try (FileChannel channel = FileChannel.open(file, StandardOpenOption.WRITE)) {
      channel.force(true);
    }
  }

  /** A folder's own entries; not every system lets a folder be opened, and then it is left. */
  private static void forceFolder(Path folder) {
    try (FileChannel channel = FileChannel.open(folder, StandardOpenOption.READ)) {
      channel.force(true);
    } catch (IOException e) {
      // Windows refuses to open folders; its moves are journalled (from memory).
    }
  }
}
