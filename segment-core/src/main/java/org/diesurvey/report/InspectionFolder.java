package org.diesurvey.report;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Instant;
import java.util.Optional;
import java.util.UUID;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.inspection.Inspection;
import org.diesurvey.inspection.InspectionJson;
import org.diesurvey.photo.PixelSource;

/** The two files of an inspection: each appears complete or not at all. */
public final class InspectionFolder {
  /** Everything that was found. */
  public static final String DOCUMENT = "inspection.json";

  /** The photograph with the focus map and the marks. */
  public static final String PICTURE = "inspection.png";

  private InspectionFolder() {}

  /**
   * Writes both files; those of an earlier inspection are replaced, other files are kept.
   *
   * @param photo the photograph that was inspected
   * @param folder where to write; it and its parents are created
   * @param created the moment to note
   * @throws DieInputException OUTPUT_NOT_WRITABLE; also where a file of that name is there that is
   *     no inspection
   */
  public static void write(Inspection inspection, PixelSource photo, Path folder, Instant created) {
    Path document = folder.resolve(DOCUMENT);
    Path picture = folder.resolve(PICTURE);
    boolean ours = isInspection(document);
    if (!ours && (Files.exists(document) || Files.exists(picture))) {
      throw new DieInputException(
          Reason.OUTPUT_NOT_WRITABLE,
          folder
              + ": an inspection.json or inspection.png that this program did not write is here"
              + " already and will not be overwritten; choose another output folder.");
    }
    String mark = "." + UUID.randomUUID();
    Path freshDocument = folder.resolve(mark + ".json");
    Path freshPicture = folder.resolve(mark + ".png");
    try {
      Files.createDirectories(folder);
      try {
        Files.write(freshDocument, InspectionJson.write(inspection, Optional.of(created)));
        MapFiles.writePicture(InspectionPicture.of(inspection, photo), freshPicture);
        // The document first: a picture without it would count as foreign next time.
        Files.move(freshDocument, document, StandardCopyOption.ATOMIC_MOVE);
        Files.move(freshPicture, picture, StandardCopyOption.ATOMIC_MOVE);
      } finally {
        Files.deleteIfExists(freshDocument);
        Files.deleteIfExists(freshPicture);
      }
    } catch (IOException e) {
      throw new DieInputException(
          Reason.OUTPUT_NOT_WRITABLE,
          folder
              + ": the inspection cannot be written here; choose a folder that you may write to, on"
              + " a disk with free space.",
          e);
    }
  }

  /** Whether the file says of itself that it is an inspection, of whatever version. */
  private static boolean isInspection(Path file) {
    try (var in = Files.newInputStream(file)) {
      String start = new String(in.readNBytes(200), StandardCharsets.UTF_8);
      return start.contains('"' + Inspection.FORMAT + '"');
    } catch (IOException e) {
      return false;
    }
  }
}
