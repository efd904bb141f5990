package org.diesurvey.archive.store;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.diesurvey.files.Disk;

/** The file that tells that a folder is an archive; a batch writes it before anything else. */
public final class ArchiveMarker {
  public static final String FILE = "diesurvey-archive.txt";

  private static final String FIRST = "Archive of die surveys, layout 1";

  /** The same in every archive. */
  public static final String TEXT =
      FIRST
          + "\n\n"
          + "The command batch of Diesurvey keeps this folder. It replaces and removes only files"
          + " that it\n"
          + "wrote and that nobody has changed since; other files stay as they are. This file is"
          + " its mark:\n"
          + "without it the folder counts as one of something else.\n";

  private ArchiveMarker() {}

  /** Whether a folder is an archive. */
  public static boolean marks(Path root) {
    Path file = root.resolve(FILE);
    try {
      return Disk.isFile(file)
          && Files.size(file) < 10_000
          && tells(Files.readString(file, StandardCharsets.UTF_8));
    } catch (IOException e) {
      return false;
    }
  }

  /** The first line counts; a person may have written it. */
  static boolean tells(String text) {
    return text.lines().findFirst().map(String::strip).filter(FIRST::equals).isPresent();
  }

  /** What to do with an archive that has lost the file, or never had one; goes on a sentence. */
  public static final String ADVICE =
      "if you know that it is an archive, one of an earlier version for example, write the line"
          + " \""
          + FIRST
          + "\" into a file "
          + FILE
          + " in it";

  /** Whether a folder may become an archive: it is empty, but for a marker that was begun. */
  static boolean mayBegin(Path root) throws IOException {
    List<Path> inside;
    try (Stream<Path> all = Files.list(root)) {
      inside = all.limit(2).toList();
    }
    return inside.isEmpty()
        || inside.size() == 1
            && inside.get(0).equals(root.resolve(FILE))
            && Disk.isFile(inside.get(0))
            && TEXT.startsWith(Files.readString(inside.get(0), StandardCharsets.UTF_8));
  }
}
