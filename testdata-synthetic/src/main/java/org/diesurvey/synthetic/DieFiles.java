package org.diesurvey.synthetic;

import java.awt.image.BufferedImage;
import java.awt.image.DataBufferByte;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import javax.imageio.ImageIO;

/** Writes a drawn die: photo, label maps, sidecar. */
public final class DieFiles {
  /** File format of the photo. */
  public enum Format {
    /** Lossless. */
    PNG,
    /** Compressed with the quality of the optics, 92 where they state none. */
    JPG,
    /** Uncompressed. */
    TIF;

    String extension() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  private DieFiles() {}

  /**
   * Writes {@code name.png|jpg|tif}, {@code name_labels.png} (scoring codes), {@code
   * name_surface.png} ({@link SurfaceLabel} codes) and {@code name.json}.
   *
   * @param die what to write
   * @param folder made if absent
   * @param name file name without extension
   * @param format of the photo
   * @return path of the photo
   * @throws IOException if a file cannot be written
   */
  public static Path write(DrawnDie die, Path folder, String name, Format format)
      throws IOException {
    Files.createDirectories(folder);
    Path photo = folder.resolve(name + "." + format.extension());
    int w = die.widthPx();
    int h = die.heightPx();
    if (format == Format.JPG) {
      int quality = die.truth().optics().jpegQuality();
      Files.write(photo, JpegTrip.encoded(die.rgb(), w, h, quality > 0 ? quality : 92));
    } else {
      String writer = format == Format.PNG ? "png" : "tiff";
      ImageIO.write(JpegTrip.image(die.rgb(), w, h), writer, photo.toFile());
    }
    byte[] scoring = new byte[w * h];
    byte[] surface = die.surface();
    for (int i = 0; i < scoring.length; i++) {
      scoring[i] = (byte) SurfaceLabel.scoring(surface[i]);
    }
    grey(scoring, w, h, folder.resolve(name + "_labels.png"));
    grey(surface, w, h, folder.resolve(name + "_surface.png"));
    Files.writeString(
        folder.resolve(name + ".json"), Sidecar.json(die, photo.getFileName().toString(), name));
    return photo;
  }

  private static void grey(byte[] codes, int w, int h, Path path) throws IOException {
    BufferedImage image = new BufferedImage(w, h, BufferedImage.TYPE_BYTE_GRAY);
    byte[] data = ((DataBufferByte) image.getRaster().getDataBuffer()).getData();
    System.arraycopy(codes, 0, data, 0, codes.length);
    ImageIO.write(image, "png", path.toFile());
  }
}
