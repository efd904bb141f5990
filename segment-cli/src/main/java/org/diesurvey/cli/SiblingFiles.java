package org.diesurvey.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;

/** Writes a file and those that belong beside it: all are complete before one is in place. */
final class SiblingFiles {
  private SiblingFiles() {}

  /**
   * Writes files.
   *
   * @param out the first file
   * @param contents by ending: "" for the file itself, "-x.png" for one beside it named after it
   * @return where they are, in the order of the map
   */
  static List<Path> write(Path out, Map<String, byte[]> contents) {
    Path folder = out.toAbsolutePath().getParent();
    List<Path> targets = new ArrayList<>();
    List<Path> fresh = new ArrayList<>();
    if (out.getFileName() == null || Files.isDirectory(out)) {
      throw new DieInputException(
          Reason.OUTPUT_NOT_WRITABLE, out + ": this is a folder; name a file in it.");
    }
    try {
      Files.createDirectories(folder);
      for (Map.Entry<String, byte[]> e : contents.entrySet()) {
        Path target =
            e.getKey().isEmpty() ? out : out.resolveSibling(SurveyFolders.stem(out) + e.getKey());
        Path temporary = Files.createTempFile(folder, ".diesurvey-", ".part");
        fresh.add(temporary);
        targets.add(target);
        Files.write(temporary, e.getValue());
      }
      for (int i = 0; i < fresh.size(); i++) {
        Files.move(fresh.get(i), targets.get(i), StandardCopyOption.REPLACE_EXISTING);
      }
      return targets;
    } catch (IOException e) {
      throw new DieInputException(
          Reason.OUTPUT_NOT_WRITABLE,
          out + ": the calibration cannot be written here; choose another --out.",
          e);
    } finally {
      fresh.forEach(SiblingFiles::remove);
    }
  }

  private static void remove(Path file) {
    try {
      Files.deleteIfExists(file);
    } catch (IOException e) {
      // A hidden temporary file left behind does no harm.
    }
  }
}
