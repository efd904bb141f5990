package org.diesurvey.files;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * The files that a call reads. They are told by the key that the disk gives them, not by their
 * names, so that other names, links and hard links lead to the same one.
 */
public final class ReadFiles {
  /** Nothing is read. */
  public static final ReadFiles NONE = new ReadFiles(List.of());

  private final List<Path> files;
  private final Set<Object> keys = new HashSet<>();
  private final List<Path> withoutKey = new ArrayList<>();

  private ReadFiles(Collection<Path> files) {
    this.files = List.copyOf(files);
    for (Path file : files) {
      Optional<Object> key = key(file);
      key.ifPresent(keys::add);
      if (key.isEmpty() && Files.exists(file)) {
        withoutKey.add(file);
      }
    }
  }

  /** These files; those that are not there do not count. */
  public static ReadFiles of(Collection<Path> files) {
    return new ReadFiles(files);
  }

  /** These and more. */
  public ReadFiles and(Collection<Path> more) {
    List<Path> all = new ArrayList<>(files);
    all.addAll(more);
    return new ReadFiles(all);
  }

  /** Whether a file is one of them. */
  public boolean holds(Path file) {
    if (!Files.exists(file)) {
      return false;
    }
    if (key(file).filter(keys::contains).isPresent()) {
      return true;
    }
    return withoutKey.stream().anyMatch(read -> same(read, file));
  }

  private static boolean same(Path a, Path b) {
    try {
      return Files.isSameFile(a, b);
    } catch (IOException e) {
      // What cannot be compared is taken for the same: it is left alone then.
      return true;
    }
  }

  /** Empty on systems that give none, as Windows. */
  private static Optional<Object> key(Path file) {
    try {
      return Optional.ofNullable(Files.readAttributes(file, BasicFileAttributes.class).fileKey());
    } catch (IOException e) {
      return Optional.empty();
    }
  }
}
