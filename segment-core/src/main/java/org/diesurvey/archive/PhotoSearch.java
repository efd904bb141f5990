package org.diesurvey.archive;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.PathMatcher;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;

/** Finds photographs in folders. */
public final class PhotoSearch {
  /** Endings of photographs that are looked for where no pattern is given, lower case. */
  public static final List<String> ENDINGS =
      List.of(".png", ".jpg", ".jpeg", ".tif", ".tiff", ".btf");

  private PhotoSearch() {}

  /**
   * All photographs below a folder, in the order of their paths. Hidden files and folders are
   * passed over; symbolic links to folders are not followed, unless the folder itself is one.
   *
   * @param folder where to look
   * @param patterns glob patterns for the path below the folder, for example "lot7/**.tif"; a
   *     pattern without a slash is held against the name alone. Empty: by {@link #ENDINGS}
   * @throws DieInputException FILE_UNREADABLE if a folder cannot be listed
   * @throws java.util.regex.PatternSyntaxException for a pattern that is none
   */
  public static List<Path> below(Path folder, List<String> patterns) {
    List<PathMatcher> wanted = matchers(patterns);
    // A link that is named as INPUT is meant; links inside are not followed.
    Path start = Files.isSymbolicLink(folder) ? folder.resolve(".") : folder;
    try (Stream<Path> all = Files.walk(start)) {
      return all.filter(Files::isRegularFile)
          .map(p -> folder.resolve(start.relativize(p)))
          .filter(p -> !hidden(folder.relativize(p)))
          .filter(p -> wanted.isEmpty() ? byEnding(p) : matches(folder.relativize(p), wanted))
          .sorted()
          .toList();
    } catch (IOException | UncheckedIOException e) {
      throw new DieInputException(
          Reason.FILE_UNREADABLE,
          folder + ": this folder cannot be listed; ask for permission to read it.",
          e);
    }
  }

  /**
   * The same rule for a file of a store.
   *
   * @param folder the URI that was searched; a file is below it, or it is the file
   * @param file one of the files found
   * @param patterns as in {@link #below}
   */
  public static boolean wanted(URI folder, URI file, List<String> patterns) {
    String path = file.getPath();
    String top = folder.getPath();
    Path below =
        Path.of(
            path.startsWith(top) && path.length() > top.length()
                ? path.substring(top.length()).replaceFirst("^/+", "")
                : path.substring(path.lastIndexOf('/') + 1));
    List<PathMatcher> matchers = matchers(patterns);
    return !hidden(below) && (matchers.isEmpty() ? byEnding(below) : matches(below, matchers));
  }

  private static List<PathMatcher> matchers(List<String> patterns) {
    return patterns.stream()
        .map(p -> FileSystems.getDefault().getPathMatcher("glob:" + p))
        .toList();
  }

  private static boolean byEnding(Path file) {
    String name = file.getFileName().toString().toLowerCase(Locale.ROOT);
    return ENDINGS.stream().anyMatch(name::endsWith);
  }

  private static boolean matches(Path below, List<PathMatcher> wanted) {
    return wanted.stream().anyMatch(m -> m.matches(below) || m.matches(below.getFileName()));
  }

  private static boolean hidden(Path below) {
    for (Path part : below) {
      if (part.toString().startsWith(".")) {
        return true;
      }
    }
    return false;
  }
}
