package org.diesurvey.archive;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;

/** Files and folders that are there completely or not at all, also after a loss of power. */
final class DurableFiles {
  private DurableFiles() {}

  /** Puts a text in place of a file by way of a temporary one beside it. */
  static void write(Path file, String text) throws IOException {
    write(file, text.getBytes(StandardCharsets.UTF_8));
  }

  static void write(Path file, byte[] bytes) throws IOException {
    Path fresh = file.resolveSibling("." + file.getFileName() + ".new");
    Files.write(fresh, bytes);
    force(fresh);
    Files.move(fresh, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
    forceFolder(file.getParent());
  }

  /** Forces the files in a folder to disk. */
  static void forceInside(Path folder) throws IOException {
    try (Stream<Path> inside = Files.list(folder)) {
      for (Path file : inside.filter(Files::isRegularFile).toList()) {
        force(file);
      }
    }
  }

  /** Moves a complete folder to its place; what lay there is removed first. */
  static void moveFolder(Path fresh, Path target) throws IOException {
    delete(target);
    Files.move(fresh, target, StandardCopyOption.ATOMIC_MOVE);
    forceFolder(target.getParent());
  }

  /** Deletes a file or a folder with all that is in it, if it is there; follows no links. */
  static void delete(Path path) throws IOException {
    if (!Files.exists(path, java.nio.file.LinkOption.NOFOLLOW_LINKS)) {
      return;
    }
    List<Path> all;
    try (Stream<Path> walk = Files.walk(path)) {
      all = walk.sorted(Comparator.reverseOrder()).toList();
    }
    for (Path p : all) {
      Files.deleteIfExists(p);
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
