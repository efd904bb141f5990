package org.diesurvey.spark;

import java.io.FileNotFoundException;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.util.Arrays;
import java.util.Comparator;
import java.util.Set;
import org.apache.hadoop.fs.FileAlreadyExistsException;
import org.apache.hadoop.fs.FileStatus;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.LocatedFileStatus;
import org.apache.hadoop.fs.Path;
import org.apache.hadoop.fs.RemoteIterator;

/**
 * What the process that writes an archive in a store asks for. Done by the driver itself, never by
 * a task, so that nothing of a run that is gone can change the archive.
 */
final class StoreOrders {
  private static final Set<String> WORDS = Set.of("make", "put", "get", "below", "move", "remove");

  private StoreOrders() {}

  /** Whether a line is for this class. */
  static boolean takes(String line) {
    String[] parts = line.split("\t", 3);
    return parts.length > 2 && WORDS.contains(parts[1]);
  }

  /** The answer to a line. */
  static String answer(String line) {
    String[] parts = line.split("\t", -1);
    String[] words = new String[3];
    for (int i = 2; i < parts.length && i < 5; i++) {
      words[i - 2] = URLDecoder.decode(parts[i], StandardCharsets.UTF_8);
    }
    String answer;
    try {
      answer =
          switch (parts[1]) {
            case "make" -> make(StoredFiles.path(words[0]), words[1]) ? "done" : "there";
            case "put" -> put(java.nio.file.Path.of(words[0]), StoredFiles.path(words[1]));
            case "get" ->
                get(StoredFiles.path(words[0]), java.nio.file.Path.of(words[1]))
                    ? "done"
                    : "absent";
            case "below" -> below(StoredFiles.path(words[0]));
            case "move" -> move(StoredFiles.path(words[0]), StoredFiles.path(words[1]), words[2]);
            default -> remove(StoredFiles.path(words[0]));
          };
    } catch (IOException | RuntimeException e) {
      answer = "refused\t" + SurveyTask.encoded(e.toString());
    }
    return parts[0] + "\t" + answer;
  }

  private static boolean make(Path path, String text) throws IOException {
    FileSystem system = StoredFiles.system(path);
    if (system.exists(path)) {
      return false;
    }
    try (OutputStream out = system.create(path, false)) {
      out.write(text.getBytes(StandardCharsets.UTF_8));
    } catch (FileAlreadyExistsException e) {
      return false;
    }
    return true;
  }

  /** An object as a whole: where the store knows no better, it is there when it is closed. */
  static String put(java.nio.file.Path file, Path path) throws IOException {
    try (OutputStream out = StoredFiles.system(path).create(path, true)) {
      Files.copy(file, out);
    }
    return "done";
  }

  private static boolean get(Path path, java.nio.file.Path file) throws IOException {
    try (InputStream in = StoredFiles.system(path).open(path)) {
      Files.copy(in, file, java.nio.file.StandardCopyOption.REPLACE_EXISTING);
      return true;
    } catch (FileNotFoundException e) {
      return false;
    }
  }

  private static String below(Path folder) throws IOException {
    FileSystem system = StoredFiles.system(folder);
    String prefix = system.makeQualified(folder).toUri().getPath();
    int skipped = prefix.endsWith("/") ? prefix.length() : prefix.length() + 1;
    StringBuilder answer = new StringBuilder("below");
    try {
      RemoteIterator<LocatedFileStatus> all = system.listFiles(folder, true);
      while (all.hasNext()) {
        FileStatus file = all.next();
        String name = file.getPath().toUri().getPath().substring(skipped);
        answer.append('\t').append(SurveyTask.encoded(name)).append('\t').append(file.getLen());
      }
    } catch (FileNotFoundException e) {
      // Nothing is there.
    }
    return answer.toString();
  }

  private static String move(Path from, Path to, String last) throws IOException {
    FileSystem system = StoredFiles.system(from);
    FileStatus[] files = system.listStatus(from);
    Arrays.sort(files, Comparator.comparing((FileStatus f) -> f.getPath().getName().equals(last)));
    system.mkdirs(to);
    for (FileStatus file : files) {
      Path target = new Path(to, file.getPath().getName());
      if (!renamed(system, file.getPath(), target)) {
        copy(system, file.getPath(), target);
      }
    }
    system.delete(from, true);
    return "done";
  }

  /** Many stores copy on their own side when asked to rename; some refuse. */
  private static boolean renamed(FileSystem system, Path from, Path to) {
    try {
      return system.rename(from, to);
    } catch (IOException | UnsupportedOperationException e) {
      return false;
    }
  }

  private static void copy(FileSystem system, Path from, Path to) throws IOException {
    try (InputStream in = system.open(from);
        OutputStream out = system.create(to, true)) {
      in.transferTo(out);
    }
  }

  private static String remove(Path path) throws IOException {
    StoredFiles.system(path).delete(path, true);
    return "done";
  }
}
