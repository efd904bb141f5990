package org.diesurvey.archive.run;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.diesurvey.report.picture.Pictures;

/** Tells pictures that this program made from photographs, wherever they lie. */
final class OwnPictures {
  private static final int START = 200;
  private static final int DIRECTORY = 1 << 16;
  private static final int TRUTH = 20_000;

  private OwnPictures() {}

  /**
   * Whether the file says of itself that this program made it: a PNG in its text "Software", near
   * the start; an exported label map in its TIFF tag 305, near the end. Maps of a drawn die are
   * named by the truth beside them; its photograph is a photograph.
   */
  static boolean isOne(Path file) {
    String name = file.getFileName().toString().toLowerCase(Locale.ROOT);
    try {
      if (name.endsWith(".png")) {
        return holds(file, false, START, Pictures.MARK) || isMapOfADrawnDie(file);
      }
      return name.matches(".*[.](tiff?|btf)") && holds(file, true, DIRECTORY, Pictures.TIFF_MARK);
    } catch (IOException e) {
      return false;
    }
  }

  private static boolean holds(Path file, boolean atEnd, int bytes, String words)
      throws IOException {
    try (RandomAccessFile in = new RandomAccessFile(file.toFile(), "r")) {
      byte[] part = new byte[(int) Math.min(bytes, in.length())];
      in.seek(atEnd ? in.length() - part.length : 0);
      in.readFully(part);
      return new String(part, StandardCharsets.ISO_8859_1).contains(words);
    }
  }

  private static boolean isMapOfADrawnDie(Path file) throws IOException {
    String name = file.getFileName().toString();
    int cut = Math.max(name.lastIndexOf("_labels.png"), name.lastIndexOf("_surface.png"));
    if (cut < 0) {
      return false;
    }
    Path truth = file.resolveSibling(name.substring(0, cut) + ".json");
    if (!Files.isRegularFile(truth)) {
      return false;
    }
    try (var in = Files.newInputStream(truth)) {
      String text = new String(in.readNBytes(TRUTH), StandardCharsets.UTF_8);
      return text.contains('"' + name + '"');
    }
  }
}
