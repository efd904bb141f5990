package org.diesurvey.report.picture;

import java.nio.file.Path;
import java.time.Instant;
import java.util.Optional;
import java.util.Set;
import org.diesurvey.DieInputException;
import org.diesurvey.files.Disk;
import org.diesurvey.files.OwnFiles;
import org.diesurvey.files.ReadFiles;
import org.diesurvey.inspection.Inspection;
import org.diesurvey.inspection.InspectionJson;
import org.diesurvey.photo.PixelSource;

/** The two files of an inspection: each appears complete or not at all. */
public final class InspectionFolder {
  /** Everything that was found. */
  public static final String DOCUMENT = "inspection.json";

  /** The photograph with the focus map and the marks. */
  public static final String PICTURE = "inspection.png";

  private static final Set<String> NAMES = Set.of(DOCUMENT, PICTURE);

  private InspectionFolder() {}

  /**
   * Writes both files and the list of their checksums; those of an earlier inspection are replaced,
   * other files are kept.
   *
   * @param photo the photograph that was inspected
   * @param folder where to write; it and its parents are created
   * @param created the moment to note
   * @param read files that must not be replaced
   * @throws DieInputException OUTPUT_NOT_WRITABLE; also where a file of that name is there that is
   *     no inspection of ours, or was changed
   */
  public static void write(
      Inspection inspection, PixelSource photo, Path folder, Instant created, ReadFiles read) {
    OwnFiles.of(folder.resolve(DOCUMENT), read)
        .fill(
            NAMES,
            fresh -> {
              Disk.write(
                  fresh.resolve(DOCUMENT), InspectionJson.write(inspection, Optional.of(created)));
              MapFiles.writePicture(
                  InspectionPicture.of(inspection, photo), fresh.resolve(PICTURE));
            });
  }

  /** Why an inspection cannot be written to a folder; empty if it can. */
  public static Optional<DieInputException> refusal(Path folder, ReadFiles read) {
    return OwnFiles.of(folder.resolve(DOCUMENT), read).refusal(NAMES);
  }
}
