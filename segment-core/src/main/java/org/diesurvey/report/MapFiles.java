package org.diesurvey.report;

import java.awt.image.BufferedImage;
import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;
import org.diesurvey.files.Disk;
import org.diesurvey.survey.Survey;

/**
 * Writes the pictures of a survey; the maps have one 8-bit grey channel in the photo's pixel frame.
 */
final class MapFiles {
  private MapFiles() {}

  static void write(Survey survey, Path labelMap, Path confidenceMap) throws IOException {
    int width = survey.photo().widthPx();
    int height = survey.photo().heightPx();
    MapRows rows = new MapRows(survey);
    try (PngRows labels = new PngRows(open(labelMap), width, height, 1);
        PngRows confidences = new PngRows(open(confidenceMap), width, height, 1)) {
      for (int y = 0; y < height; y++) {
        rows.row(y);
        labels.row(rows.labels());
        confidences.row(rows.confidences());
      }
    }
  }

  /** Writes an RGB picture. */
  static void writePicture(BufferedImage image, Path file) throws IOException {
    writePicture(image, open(file));
  }

  /** Writes an RGB picture and closes the stream. */
  static void writePicture(BufferedImage image, OutputStream out) throws IOException {
    int width = image.getWidth();
    int[] pixels = new int[width];
    byte[] samples = new byte[3 * width];
    try (PngRows rows = new PngRows(out, width, image.getHeight(), 3)) {
      for (int y = 0; y < image.getHeight(); y++) {
        image.getRaster().getDataElements(0, y, width, 1, pixels);
        for (int x = 0; x < width; x++) {
          samples[3 * x] = (byte) (pixels[x] >> 16);
          samples[3 * x + 1] = (byte) (pixels[x] >> 8);
          samples[3 * x + 2] = (byte) pixels[x];
        }
        rows.row(samples);
      }
    }
  }

  private static OutputStream open(Path file) throws IOException {
    return new BufferedOutputStream(Disk.create(file), 1 << 16);
  }
}
