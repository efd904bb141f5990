package org.diesurvey;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Assumptions;

/**
 * Outside data that lies beside the project in {@code ../shared/data}. Tests that need it are
 * skipped, and say so, where it is absent.
 */
public final class SharedData {
  private SharedData() {}

  /**
   * A file or folder of the outside data.
   *
   * @param relative path below the data folder, with forward slashes
   */
  public static Path require(String relative) {
    for (Path p = Path.of(System.getProperty("user.dir")).toAbsolutePath();
        p != null;
        p = p.getParent()) {
      Path candidate = p.resolve("../shared/data").normalize().resolve(relative);
      if (Files.exists(candidate)) {
        return candidate;
      }
    }
    Assumptions.abort(
        "skipped: the outside data ../shared/data/"
            + relative
            + " is not beside the project, so this check could not be made");
    throw new IllegalStateException("not reached");
  }

  /** The truth files of the dies rendered from open layouts, in order of name. */
  public static List<Path> openDies() {
    return jsonFiles("open-dies");
  }

  /** The truth files of whole chips rendered from open layouts, in order of name. */
  public static List<Path> openChips() {
    return jsonFiles("open-chips");
  }

  /** The truth files of the real photographs, in order of name; their scale is unknown. */
  public static List<Path> realPhotos() {
    return jsonFiles("real-photos");
  }

  private static List<Path> jsonFiles(String folder) {
    try (Stream<Path> files = Files.list(require(folder))) {
      return files.filter(f -> f.toString().endsWith(".json")).sorted().toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
