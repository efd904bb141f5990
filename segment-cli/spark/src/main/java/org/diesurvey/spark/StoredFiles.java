package org.diesurvey.spark;

import java.io.FileNotFoundException;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.LocatedFileStatus;
import org.apache.hadoop.fs.RemoteIterator;
import org.apache.hadoop.fs.UnsupportedFileSystemException;
import org.apache.spark.SparkEnv;

/** Files by path, which all computers see alike, or by URI through Hadoop's file systems. */
final class StoredFiles {
  private static Configuration settings;

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

  /**
   * The file itself, or a copy of the same name.
   *
   * @throws FileNotFoundException if it is not there
   * @throws UncheckedIOException if the store does not give it: it may the next time
   */
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
    } catch (FileNotFoundException | UnsupportedFileSystemException | RuntimeException e) {
      copy.close();
      throw e;
    } catch (IOException e) {
      copy.close();
      throw new UncheckedIOException("the store does not give " + place, e);
    }
  }

  static InputStream open(String place) throws IOException {
    if (!isUri(place)) {
      return Files.newInputStream(Path.of(place));
    }
    return system(path(place)).open(path(place));
  }

  /** Puts the files of a folder of this computer into one of a store. */
  static void put(Path folder, String place) throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      for (Path file : files.sorted().toList()) {
        StoreOrders.put(file, path(place + "/" + file.getFileName()));
      }
    }
  }

  /** Deletes a folder of this computer with all that is in it, as far as that can be done. */
  static void delete(Path folder) {
    try (Stream<Path> all = Files.walk(folder)) {
      for (Path path : all.sorted(Comparator.reverseOrder()).toList()) {
        Files.deleteIfExists(path);
      }
    } catch (IOException e) {
      // A process that is about to end may still write here; it is a temporary folder.
    }
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

  static boolean isUri(String place) {
    return place.matches("[A-Za-z][A-Za-z0-9+.-]+:/.*");
  }

  static org.apache.hadoop.fs.Path path(String place) {
    // A store as a whole: without a path Hadoop would take its own home folder there.
    boolean whole = place.matches("[^:/]+://[^/]+");
    return new org.apache.hadoop.fs.Path(URI.create(whole ? place + "/" : place));
  }

  static FileSystem system(org.apache.hadoop.fs.Path path) throws IOException {
    FileSystem system = path.getFileSystem(settings());
    // Some file systems would lay a file of checksums beside each.
    system.setWriteChecksum(false);
    return system;
  }

  /** Settings are those of the application: spark.hadoop.NAME sets NAME. */
  private static synchronized Configuration settings() {
    if (settings == null) {
      settings = new Configuration();
      String prefix = "spark.hadoop.";
      for (scala.Tuple2<String, String> s : SparkEnv.get().conf().getAllWithPrefix(prefix)) {
        settings.set(s._1(), s._2());
      }
    }
    return settings;
  }
}
