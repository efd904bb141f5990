package org.diesurvey.spark;

import java.io.FileNotFoundException;
import java.io.FilterOutputStream;
import java.io.IOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.UUID;
import java.util.stream.Stream;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FSDataInputStream;
import org.apache.hadoop.fs.FSDataOutputStream;
import org.apache.hadoop.fs.FileAlreadyExistsException;
import org.apache.hadoop.fs.FileStatus;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Path;
import org.apache.hadoop.fs.RawLocalFileSystem;
import org.apache.hadoop.fs.permission.FsPermission;
import org.apache.hadoop.util.Progressable;

/**
 * A store of objects for tests, kept in a folder of this computer ({@code fs.shelf.root}): an
 * object appears when it is closed, there are no empty folders, no appending, and no renaming of
 * folders; of single objects only some are renamed, as different stores do.
 */
public final class ShelfFileSystem extends FileSystem {
  private final RawLocalFileSystem disk = new RawLocalFileSystem();
  private java.nio.file.Path root;
  private URI uri;

  @Override
  public String getScheme() {
    return "shelf";
  }

  @Override
  public void initialize(URI name, Configuration settings) throws IOException {
    super.initialize(name, settings);
    uri = URI.create(name.getScheme() + "://" + name.getAuthority());
    root = java.nio.file.Path.of(settings.get("fs.shelf.root"));
    disk.initialize(URI.create("file:///"), settings);
    setConf(settings);
  }

  @Override
  public URI getUri() {
    return uri;
  }

  private java.nio.file.Path file(Path path) {
    return root.resolve(makeQualified(path).toUri().getPath().substring(1));
  }

  @Override
  public FSDataInputStream open(Path path, int buffer) throws IOException {
    requireObject(path);
    return disk.open(new Path(file(path).toUri()), buffer);
  }

  private void requireObject(Path path) throws FileNotFoundException {
    if (!Files.isRegularFile(file(path))) {
      throw new FileNotFoundException(path.toString());
    }
  }

  @Override
  public FSDataOutputStream create(
      Path path,
      FsPermission permission,
      boolean overwrite,
      int buffer,
      short copies,
      long block,
      Progressable progress)
      throws IOException {
    if (!overwrite && Files.exists(file(path))) {
      throw new FileAlreadyExistsException(path.toString());
    }
    java.nio.file.Path fresh = root.resolveSibling("upload-" + UUID.randomUUID());
    return new FSDataOutputStream(
        new FilterOutputStream(Files.newOutputStream(fresh)) {
          private boolean closed;

          @Override
          public void write(byte[] bytes, int from, int length) throws IOException {
            out.write(bytes, from, length);
          }

          @Override
          public void close() throws IOException {
            if (!closed) {
              closed = true;
              super.close();
              appear(fresh, file(path));
            }
          }
        },
        statistics);
  }

  private static void appear(java.nio.file.Path fresh, java.nio.file.Path file) throws IOException {
    while (true) {
      Files.createDirectories(file.getParent());
      try {
        Files.move(fresh, file, StandardCopyOption.ATOMIC_MOVE);
        return;
      } catch (java.nio.file.NoSuchFileException e) {
        // Somebody has just removed the last object of this folder, and the folder with it.
        continue;
      }
    }
  }

  @Override
  public FSDataOutputStream append(Path path, int buffer, Progressable progress) {
    throw new UnsupportedOperationException("objects do not grow");
  }

  @Override
  public boolean rename(Path from, Path to) throws IOException {
    requireObject(from);
    if (from.getName().endsWith(".json")) {
      throw new UnsupportedOperationException("objects keep their names");
    }
    if (from.getName().endsWith(".png")) {
      return false;
    }
    Files.createDirectories(file(to).getParent());
    Files.copy(file(from), file(to));
    return delete(from, false);
  }

  @Override
  public boolean delete(Path path, boolean recursive) throws IOException {
    java.nio.file.Path file = file(path);
    if (!Files.exists(file)) {
      return false;
    }
    try (Stream<java.nio.file.Path> all = Files.walk(file)) {
      for (java.nio.file.Path p : all.sorted(Comparator.reverseOrder()).toList()) {
        Files.deleteIfExists(p);
      }
    }
    try {
      for (java.nio.file.Path p = file.getParent(); !p.equals(root); p = p.getParent()) {
        Files.delete(p);
      }
    } catch (java.nio.file.DirectoryNotEmptyException | java.nio.file.NoSuchFileException e) {
      // There is more below it, or somebody else was quicker.
    }
    return true;
  }

  @Override
  public FileStatus[] listStatus(Path path) throws IOException {
    if (Files.isRegularFile(file(path))) {
      return new FileStatus[] {getFileStatus(path)};
    }
    List<FileStatus> found = new ArrayList<>();
    try (Stream<java.nio.file.Path> inside = Files.list(file(path))) {
      for (java.nio.file.Path p : inside.sorted().toList()) {
        try {
          found.add(getFileStatus(new Path(path, p.getFileName().toString())));
        } catch (FileNotFoundException e) {
          continue;
        }
      }
    } catch (java.nio.file.NoSuchFileException e) {
      throw new FileNotFoundException(path.toString());
    }
    return found.toArray(FileStatus[]::new);
  }

  @Override
  public boolean mkdirs(Path path, FsPermission permission) {
    return true;
  }

  @Override
  public FileStatus getFileStatus(Path path) throws IOException {
    java.nio.file.Path file = file(path);
    try {
      boolean folder = Files.isDirectory(file);
      long bytes = folder ? 0 : Files.size(file);
      long changed = Files.getLastModifiedTime(file).toMillis();
      return new FileStatus(bytes, folder, 1, 1 << 20, changed, makeQualified(path));
    } catch (java.nio.file.NoSuchFileException e) {
      throw new FileNotFoundException(path.toString());
    }
  }

  @Override
  public void setWorkingDirectory(Path path) {
    throw new UnsupportedOperationException("there is no working folder");
  }

  @Override
  public Path getWorkingDirectory() {
    return new Path(uri.toString(), "/");
  }
}
