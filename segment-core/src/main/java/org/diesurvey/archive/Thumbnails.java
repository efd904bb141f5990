package org.diesurvey.archive;

import java.awt.Image;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import javax.imageio.ImageIO;
import org.diesurvey.DieInputException;
import org.diesurvey.DieInputException.Reason;
import org.diesurvey.report.SurveyFolder;

/** A small picture of each survey for the index page and contact sheets. */
final class Thumbnails {
  /** Name in the folder of a photograph. */
  static final String FILE = "thumbnail.png";

  private static final int LONG_SIDE_PX = 240;

  private Thumbnails() {}

  /** Adds the small picture, made from the overlay in the folder. */
  static void add(Path folder) {
    try {
      BufferedImage overlay = ImageIO.read(folder.resolve(SurveyFolder.OVERLAY).toFile());
      double scale =
          Math.min(1, (double) LONG_SIDE_PX / Math.max(overlay.getWidth(), overlay.getHeight()));
      int width = Math.max(1, (int) Math.round(overlay.getWidth() * scale));
      int height = Math.max(1, (int) Math.round(overlay.getHeight() * scale));
      BufferedImage small = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
      var g = small.createGraphics();
      g.drawImage(overlay.getScaledInstance(width, height, Image.SCALE_AREA_AVERAGING), 0, 0, null);
      g.dispose();
      ImageIO.write(small, "png", folder.resolve(FILE).toFile());
    } catch (IOException e) {
      throw new DieInputException(
          Reason.OUTPUT_NOT_WRITABLE, folder + ": the small picture cannot be written here.", e);
    }
  }
}
