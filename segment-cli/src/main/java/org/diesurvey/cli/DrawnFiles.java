package org.diesurvey.cli;

import java.nio.file.Path;
import java.util.Optional;
import java.util.Set;
import org.diesurvey.DieInputException;
import org.diesurvey.files.OwnFiles;
import org.diesurvey.files.ReadFiles;
import org.diesurvey.synthetic.DieFiles;
import org.diesurvey.synthetic.DrawnDie;

/** The files of a drawn die, put in place together; what is in the way and not ours is left. */
final class DrawnFiles {
  private DrawnFiles() {}

  /**
   * Writes them.
   *
   * @param name file name without extension
   * @return the photograph
   * @throws DieInputException OUTPUT_NOT_WRITABLE
   */
  static Path write(DrawnDie die, Path folder, String name, DieFiles.Format format) {
    files(folder, name)
        .fill(names(name, format), fresh -> DieFiles.write(die, fresh, name, format));
    return folder.resolve(photo(name, format));
  }

  /** Makes sure, before anything is drawn, that they can be written. */
  static void require(Path folder, String name, DieFiles.Format format) {
    Optional<DieInputException> refusal = files(folder, name).refusal(names(name, format));
    if (refusal.isPresent()) {
      throw refusal.get();
    }
  }

  private static OwnFiles files(Path folder, String name) {
    return OwnFiles.of(folder.resolve(name + ".json"), ReadFiles.NONE);
  }

  private static String photo(String name, DieFiles.Format format) {
    return name + "." + format.name().toLowerCase(java.util.Locale.ROOT);
  }

  private static Set<String> names(String name, DieFiles.Format format) {
    return Set.of(photo(name, format), name + "_labels.png", name + "_surface.png", name + ".json");
  }
}
