package org.diesurvey.report.picture;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;

/** Writes pictures as this program does, for packages above. */
public final class Pictures {
  /** What a PNG of ours holds near its start: keyword and text of the chunk tEXt. */
  public static final String MARK = "Software\0Diesurvey";

  /** What an exported label map holds near its end. */
  public static final String TIFF_MARK = ", label map";

  private Pictures() {}

  /**
   * Writes an RGB picture as PNG; the file says that this program made it.
   *
   * @param file that is not there yet
   */
  public static void write(BufferedImage image, Path file) throws IOException {
    MapFiles.writePicture(image, file);
  }
}
