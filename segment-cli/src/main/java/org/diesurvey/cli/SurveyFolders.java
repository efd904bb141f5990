package org.diesurvey.cli;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Stream;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.report.SurveyFolder;

/** Where surveys go; all that can be wrong with it is found before work starts. */
final class SurveyFolders {
  /**
   * A photograph and its folder.
   *
   * @param photo path as the user wrote it
   * @param folder for its survey
   * @param refusal why it cannot be surveyed into that folder; empty if it can
   */
  record Place(Path photo, Path folder, java.util.Optional<DieInputException> refusal) {}

  private SurveyFolders() {}

  /**
   * Makes sure that folders can be made in a folder; creates it.
   *
   * @return whether it was created by this call
   * @throws DieInputException OUTPUT_NOT_WRITABLE
   */
  static boolean prepare(Path out) {
    boolean existed = Files.isDirectory(out);
    try {
      Files.createDirectories(out);
      Files.delete(Files.createTempDirectory(out, ".diesurvey-"));
      return !existed;
    } catch (FileAlreadyExistsException e) {
      throw new DieInputException(
          Reason.OUTPUT_NOT_WRITABLE,
          out + ": this is a file, not a folder; choose another --out.",
          e);
    } catch (IOException e) {
      throw new DieInputException(
          Reason.OUTPUT_NOT_WRITABLE,
          out
              + ": nothing can be written here; choose another --out, or ask for permission to"
              + " write to this one.",
          e);
    }
  }

  /** Removes the folder again if nothing came of it. */
  static void removeIfEmpty(Path out) {
    try (Stream<Path> inside = Files.list(out)) {
      if (inside.findAny().isEmpty()) {
        Files.delete(out);
      }
    } catch (IOException e) {
      // An empty folder left behind does no harm.
    }
  }

  /**
   * One folder per photograph, named like the file without its extension. The first photograph of a
   * name has the folder, a second one is refused: a number behind the name would depend on the
   * order of the call. Names that differ in case only count as the same, as they are on some disks.
   */
  static List<Place> of(List<Path> photos, Path out) {
    Map<String, Path> owner = new HashMap<>();
    List<Place> places = new ArrayList<>();
    for (Path photo : photos) {
      String name = stem(photo);
      Path folder = out.resolve(name);
      Path first = owner.putIfAbsent(name.toLowerCase(Locale.ROOT), photo);
      places.add(
          new Place(photo, folder, java.util.Optional.ofNullable(refusal(photo, folder, first))));
    }
    return places;
  }

  /** File name without its extension. */
  static String stem(Path file) {
    String name = file.getFileName() == null ? "" : file.getFileName().toString();
    int dot = name.lastIndexOf('.');
    String stem = dot > 0 ? name.substring(0, dot) : name;
    return stem.isBlank() || stem.equals(".") || stem.equals("..") ? "photo" : stem;
  }

  private static DieInputException refusal(Path photo, Path folder, Path first) {
    if (first != null) {
      return new DieInputException(
          Reason.OUTPUT_NOT_WRITABLE,
          photo
              + ": its folder "
              + folder
              + " belongs to "
              + first
              + " in this call; rename the photograph or survey it with another --out.");
    }
    if (Files.exists(folder) && !replaceable(folder)) {
      return new DieInputException(
          Reason.OUTPUT_NOT_WRITABLE,
          photo
              + ": "
              + folder
              + " exists and holds no survey, so it is left alone; move it away or choose another"
              + " --out.");
    }
    return null;
  }

  private static boolean replaceable(Path folder) {
    if (!Files.isDirectory(folder)) {
      return false;
    }
    if (Files.isRegularFile(folder.resolve(SurveyFolder.SURVEY))) {
      return true;
    }
    try (Stream<Path> inside = Files.list(folder)) {
      return inside.findAny().isEmpty();
    } catch (IOException e) {
      return false;
    }
  }
}
