package org.diesurvey.report.picture;

import java.awt.Color;
import java.awt.image.BufferedImage;
import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.diesurvey.classification.DieClass;
import org.diesurvey.files.Disk;
import org.diesurvey.survey.Survey;

/**
 * Writes the pictures of a survey. The maps have one 8-bit grey channel in the photo's pixel frame;
 * the coloured one has a palette, since viewers show the codes themselves nearly black.
 */
public final class MapFiles {
  private MapFiles() {}

  /** Colours of the classes by their codes, paper where there is no die; unclear is the last. */
  private static final List<Color> COLOURS = colours();

  private static List<Color> colours() {
    List<Color> out = new ArrayList<>();
    out.add(Color.WHITE);
    for (DieClass c : DieClass.values()) {
      if (c != DieClass.OFF_DIE && c != DieClass.UNCLEAR) {
        out.add(ClassStyle.of(c).color());
      }
    }
    out.add(ClassStyle.of(DieClass.UNCLEAR).color());
    return List.copyOf(out);
  }

  public static void write(Survey survey, Path labelMap, Path confidenceMap, Path classes)
      throws IOException {
    int width = survey.photo().widthPx();
    int height = survey.photo().heightPx();
    MapRows rows = new MapRows(survey);
    try (PngRows labels = new PngRows(open(labelMap), width, height, 1);
        PngRows confidences = new PngRows(open(confidenceMap), width, height, 1);
        PngRows coloured = new PngRows(open(classes), width, height, COLOURS)) {
      byte[] numbers = new byte[width];
      for (int y = 0; y < height; y++) {
        rows.row(y);
        labels.row(rows.labels());
        confidences.row(rows.confidences());
        for (int x = 0; x < width; x++) {
          int code = rows.labels()[x] & 255;
          numbers[x] = (byte) Math.min(code, COLOURS.size() - 1);
        }
        coloured.row(numbers);
      }
    }
  }

  /** Writes an RGB picture. */
  public static void writePicture(BufferedImage image, Path file) throws IOException {
    writePicture(image, open(file));
  }

  /** Writes an RGB picture and closes the stream. */
  public static void writePicture(BufferedImage image, OutputStream out) throws IOException {
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
