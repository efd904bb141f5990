package org.diesurvey.scoring;

import java.awt.image.BufferedImage;
import java.awt.image.Raster;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import javax.imageio.ImageIO;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.raster.LabelRaster;

/** Label maps from PNG files: one channel of at most 8 bits, grey or palette. */
public final class LabelFile {
  private LabelFile() {}

  /**
   * The stored sample values, untouched by palette or gamma.
   *
   * @throws DieInputException if the file is missing, unreadable or not a one-channel map of at
   *     most 8 bits
   */
  public static LabelRaster read(Path file) {
    if (!Files.isRegularFile(file)) {
      throw new DieInputException(
          Reason.FILE_MISSING,
          file + ": no such label map; it must lie where the truth file says.");
    }
    BufferedImage image;
    try {
      image = ImageIO.read(file.toFile());
    } catch (IOException | RuntimeException e) {
      // The JDK's decoder reports some damaged files with unchecked exceptions.
      throw new DieInputException(
          Reason.FILE_UNREADABLE,
          file + ": the label map cannot be decoded; write it again as an 8-bit grey PNG.",
          e);
    }
    if (image == null) {
      throw new DieInputException(
          Reason.FORMAT_UNKNOWN, file + ": not a PNG; a label map is an 8-bit grey PNG.");
    }
    Raster raster = image.getRaster();
    if (raster.getNumBands() != 1 || raster.getSampleModel().getSampleSize(0) > 8) {
      throw new DieInputException(
          Reason.FORMAT_UNSUPPORTED,
          file
              + ": has "
              + raster.getNumBands()
              + " channels of "
              + raster.getSampleModel().getSampleSize(0)
              + " bits; a label map has one channel of 8 bits.");
    }
    int width = raster.getWidth();
    int height = raster.getHeight();
    LabelRaster labels = new LabelRaster(width, height);
    byte[] codes = labels.array();
    int[] row = new int[width];
    for (int y = 0; y < height; y++) {
      raster.getSamples(raster.getMinX(), raster.getMinY() + y, width, 1, 0, row);
      for (int x = 0; x < width; x++) {
        codes[y * width + x] = (byte) row[x];
      }
    }
    return labels;
  }
}
