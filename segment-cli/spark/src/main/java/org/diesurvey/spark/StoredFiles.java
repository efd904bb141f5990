package org.diesurvey.spark;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.LocatedFileStatus;
import org.apache.hadoop.fs.RemoteIterator;
import org.apache.spark.SparkEnv;

/** Files by path, which all computers see alike, or by URI through Hadoop's file systems. */
final class StoredFiles {
  private StoredFiles() {}

  /**
   * A file of this computer.
   *
   * @param file where it lies
   * @param folder to delete afterwards; null if the file is the original
   */
  record Copy(Path file, Path folder) implements AutoCloseable {
    @Override
    public void close() throws IOException {
      if (folder != null) {
        Files.deleteIfExists(file);
        Files.deleteIfExists(folder);
      }
    }
  }

  /** The file itself, or a copy of the same name. */
  static Copy local(String place) throws IOException {
    if (!isUri(place)) {
      return new Copy(Path.of(place), null);
    }
    org.apache.hadoop.fs.Path source = path(place);
    Path folder = Files.createTempDirectory("diesurvey-photo-");
    Copy copy = new Copy(folder.resolve(source.getName()), folder);
    try (InputStream in = open(place)) {
      Files.copy(in, copy.file());
      return copy;
    } catch (IOException | RuntimeException e) {
      copy.close();
      throw e;
    }
  }

  static InputStream open(String place) throws IOException {
    if (!isUri(place)) {
      return Files.newInputStream(Path.of(place));
    }
    return system(path(place)).open(path(place));
  }

  /** URIs of all files below a folder. */
  static List<String> below(String folder) throws IOException {
    List<String> files = new ArrayList<>();
    RemoteIterator<LocatedFileStatus> all = system(path(folder)).listFiles(path(folder), true);
    while (all.hasNext()) {
      files.add(all.next().getPath().toUri().toString());
    }
    return files;
  }

  private static boolean isUri(String place) {
    return place.matches("[A-Za-z][A-Za-z0-9+.-]+:/.*");
  }

  private static org.apache.hadoop.fs.Path path(String place) {
    return new org.apache.hadoop.fs.Path(URI.create(place));
  }

  /** Settings are those of the application: spark.hadoop.NAME sets NAME. */
  private static FileSystem system(org.apache.hadoop.fs.Path path) throws IOException {
    Configuration settings = new Configuration();
    String prefix = "spark.hadoop.";
    for (scala.Tuple2<String, String> s : SparkEnv.get().conf().getAllWithPrefix(prefix)) {
      settings.set(s._1(), s._2());
    }
    try {
      return path.getFileSystem(settings);
    } catch (UncheckedIOException e) {
      throw e.getCause();
    }
  }
}
