package org.diesurvey.cli;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.files.Disk;
import org.diesurvey.files.ReadFiles;
import org.diesurvey.files.ResultKind;
import org.diesurvey.files.WholeFolder;

/**
 * Where the surveys of one call go: one folder per photograph, named like the file without its
 * extension. The first photograph of a name that is surveyed has the folder, a second one is
 * refused: a number behind the name would depend on the order of the call. Names that differ in
 * case only count as the same, as they are on some disks.
 */
final class SurveyFolders {
  private final Path out;
  private final ReadFiles read;
  private final Map<String, Path> owners = new HashMap<>();

  /**
   * A photograph and its folder.
   *
   * @param photo path as the user wrote it
   * @param folder for its survey
   * @param refusal why it cannot be surveyed into that folder; empty if it can
   */
  record Place(Path photo, Path folder, Optional<DieInputException> refusal) {}

  SurveyFolders(Path out) {
    this(out, ReadFiles.NONE);
  }

  /**
   * @param read files that must not be replaced
   */
  SurveyFolders(Path out, ReadFiles read) {
    this.out = out;
    this.read = read;
  }

  /**
   * Makes sure that folders can be made in a folder; creates it, or makes order in it after calls
   * that were ended.
   *
   * @return whether it was created by this call
   * @throws DieInputException OUTPUT_NOT_WRITABLE
   */
  static boolean prepare(Path out) {
    boolean existed = Files.isDirectory(out);
    try {
      Disk.folders(out);
      WholeFolder.restore(out);
      Disk.removeMade(Disk.temporary(out, ".diesurvey-"));
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
    try {
      Disk.removeIfEmpty(out);
    } catch (IOException e) {
      // An empty folder left behind does no harm.
    }
  }

  /**
   * Makes sure, before anything is done, that nothing in the way of these photographs' surveys is
   * somebody's.
   *
   * @throws DieInputException OUTPUT_NOT_WRITABLE for the first that cannot be written
   */
  void requireFree(List<Path> photos) {
    for (Path photo : photos) {
      Optional<DieInputException> refusal =
          WholeFolder.refusal(out.resolve(stem(photo)), ResultKind.SURVEY, read);
      if (refusal.isPresent()) {
        throw refusal.get();
      }
    }
  }

  /** Where the survey of a photograph goes, or why it cannot. */
  Place place(Path photo) {
    Path folder = out.resolve(stem(photo));
    return new Place(photo, folder, refusal(photo, folder, owners.get(key(photo))));
  }

  /** Notes that a photograph was surveyed: its folder is taken for the rest of the call. */
  void taken(Place place) {
    owners.putIfAbsent(key(place.photo()), place.photo());
  }

  private static String key(Path photo) {
    return stem(photo).toLowerCase(Locale.ROOT);
  }

  /** File name without its extension. */
  static String stem(Path file) {
    String name = file.getFileName() == null ? "" : file.getFileName().toString();
    int dot = name.lastIndexOf('.');
    String stem = dot > 0 ? name.substring(0, dot) : name;
    return stem.isBlank() || stem.equals(".") || stem.equals("..") ? "photo" : stem;
  }

  private Optional<DieInputException> refusal(Path photo, Path folder, Path first) {
    if (first != null) {
      return Optional.of(
          new DieInputException(
              Reason.OUTPUT_NOT_WRITABLE,
              photo
                  + ": its folder "
                  + folder
                  + " belongs to "
                  + first
                  + " in this call; rename the photograph or survey it with another --out."));
    }
    return WholeFolder.refusal(folder, ResultKind.SURVEY, read);
  }
}
