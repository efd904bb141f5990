package org.diesurvey.archive.run;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.nio.file.FileSystems;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.PathMatcher;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.archive.store.ArchiveFolder;
import org.diesurvey.archive.store.ArchiveMarker;
import org.diesurvey.files.ResultKind;

/** Finds photographs in folders; what this program made is none. */
public final class PhotoSearch {
  /** Endings of photographs that are looked for where no pattern is given, lower case. */
  public static final List<String> ENDINGS =
      List.of(".png", ".jpg", ".jpeg", ".tif", ".tiff", ".btf");

  private PhotoSearch() {}

  /**
   * What a search found.
   *
   * @param photos in the order of their paths
   * @param leftOut what was passed over
   */
  public record Found<T>(List<T> photos, LeftOut leftOut) {
    /** Copies the list. */
    public Found {
      photos = List.copyOf(photos);
    }
  }

  /**
   * All photographs below a folder, in the order of their paths. Hidden files and folders are
   * passed over, and so are archives, folders of surveys and comparisons, and single pictures that
   * this program made; symbolic links to folders are not followed, unless the folder itself is one.
   *
   * @param folder where to look
   * @param patterns glob patterns for the path below the folder, for example "lot7/**.tif"; a
   *     pattern without a slash is held against the name alone. Empty: by {@link #ENDINGS}
   * @throws DieInputException FILE_UNREADABLE if a folder cannot be listed
   * @throws java.util.regex.PatternSyntaxException for a pattern that is none
   */
  public static Found<Path> below(Path folder, List<String> patterns) {
    // A link that is named as INPUT is meant; links inside are not followed.
    Path start = Files.isSymbolicLink(folder) ? folder.resolve(".") : folder;
    Walk walk = new Walk(folder, start, matchers(patterns));
    try {
      Files.walkFileTree(start, walk);
      walk.found.sort(null);
      return new Found<>(walk.found, walk.leftOut);
    } catch (IOException | UncheckedIOException e) {
      throw new DieInputException(
          Reason.FILE_UNREADABLE,
          folder + ": this folder cannot be listed; ask for permission to read it.",
          e);
    }
  }

  private static final class Walk extends SimpleFileVisitor<Path> {
    private final Path top;
    private final Path start;
    private final List<PathMatcher> wanted;
    private final List<Path> found = new ArrayList<>();
    private LeftOut leftOut = LeftOut.NOTHING;

    Walk(Path top, Path start, List<PathMatcher> wanted) {
      this.top = top;
      this.start = start;
      this.wanted = wanted;
    }

    @Override
    public FileVisitResult preVisitDirectory(Path folder, BasicFileAttributes attributes) {
      if (!folder.equals(start) && hidden(folder.getFileName())) {
        return FileVisitResult.SKIP_SUBTREE;
      }
      if (isArchive(folder)) {
        leftOut = leftOut.and(new LeftOut(1, 0, 0));
        return FileVisitResult.SKIP_SUBTREE;
      }
      if (ResultKind.tells(folder)) {
        leftOut = leftOut.and(new LeftOut(0, 1, 0));
        return FileVisitResult.SKIP_SUBTREE;
      }
      return FileVisitResult.CONTINUE;
    }

    @Override
    public FileVisitResult visitFile(Path at, BasicFileAttributes attributes) {
      Path below = start.relativize(at);
      Path file = top.resolve(below);
      boolean candidate =
          Files.isRegularFile(file)
              && !hidden(file.getFileName())
              && (wanted.isEmpty() ? byEnding(file) : matches(below, wanted));
      if (candidate && OwnPictures.isOne(file)) {
        leftOut = leftOut.and(new LeftOut(0, 0, 1));
      } else if (candidate) {
        found.add(file);
      }
      return FileVisitResult.CONTINUE;
    }
  }

  /** With the marker, or with a database from before there were markers. */
  private static boolean isArchive(Path folder) {
    return ArchiveMarker.marks(folder)
        || Files.isRegularFile(folder.resolve(ArchiveFolder.DATABASE))
            && Files.isDirectory(folder.resolve(ArchiveFolder.PHOTOS));
  }

  /**
   * The same rule for the files of a store, by their names alone.
   *
   * @param folder the URI that was searched; the files are below it, or it is the file
   * @param files all that were found
   * @param patterns as in {@link #below}
   */
  public static Found<URI> stored(URI folder, List<URI> files, List<String> patterns) {
    List<PathMatcher> matchers = matchers(patterns);
    List<String> archives = foldersWith(files, ArchiveMarker.FILE);
    List<String> results = new ArrayList<>();
    for (String document : ResultKind.allDocuments()) {
      results.addAll(foldersWith(files, document));
    }
    results.removeIf(r -> within(r, archives));
    List<URI> found = new ArrayList<>();
    for (URI file : files) {
      if (wanted(folder, file, matchers)
          && !within(file.getPath(), archives)
          && !within(file.getPath(), results)) {
        found.add(file);
      }
    }
    return new Found<>(
        found, new LeftOut(archives.size(), (int) results.stream().distinct().count(), 0));
  }

  private static List<String> foldersWith(List<URI> files, String name) {
    List<String> folders = new ArrayList<>();
    for (URI file : files) {
      if (file.getPath().endsWith("/" + name)) {
        folders.add(file.getPath().substring(0, file.getPath().length() - name.length()));
      }
    }
    return folders;
  }

  private static boolean within(String path, List<String> folders) {
    return folders.stream().anyMatch(path::startsWith);
  }

  private static boolean wanted(URI folder, URI file, List<PathMatcher> matchers) {
    String path = file.getPath();
    String top = folder.getPath();
    Path below =
        Path.of(
            path.startsWith(top) && path.length() > top.length()
                ? path.substring(top.length()).replaceFirst("^/+", "")
                : path.substring(path.lastIndexOf('/') + 1));
    for (Path part : below) {
      if (hidden(part)) {
        return false;
      }
    }
    return matchers.isEmpty() ? byEnding(below) : matches(below, matchers);
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

  private static boolean hidden(Path name) {
    return name != null && name.toString().startsWith(".");
  }
}
