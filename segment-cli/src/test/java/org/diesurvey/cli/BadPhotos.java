package org.diesurvey.cli;

import java.awt.image.BufferedImage;
import java.awt.image.DataBuffer;
import java.awt.image.Raster;
import java.awt.image.WritableRaster;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageWriter;
import javax.imageio.stream.ImageOutputStream;

/** Files that are no photographs of dies, made with the platform's own writers. */
final class BadPhotos {
  private BadPhotos() {}

  static Path make(String kind, Path folder) throws IOException {
    return switch (kind) {
      case "missing" -> folder.resolve("nowhere.png");
      case "directory" -> Files.createDirectory(folder.resolve("folder.png"));
      case "empty" -> Files.write(folder.resolve("empty.png"), new byte[0]);
      case "text" ->
          Files.writeString(folder.resolve("text.png"), "this is a letter, no picture\n");
      case "cut-png" -> cut(grained("png", folder.resolve("cut.png")));
      case "cut-jpeg" -> cut(grained("jpeg", folder.resolve("cut.jpg")));
      case "cut-tiff" -> cut(grained("tiff", folder.resolve("cut.tif")));
      case "one-pixel" -> flat(1, 1, 128, folder.resolve("one.png"));
      case "black" -> flat(300, 200, 0, folder.resolve("black.png"));
      case "white" -> flat(300, 200, 255, folder.resolve("white.png"));
      case "webp" -> webp(folder.resolve("die.webp"));
      case "cmyk" -> cmyk(folder.resolve("cmyk.jpg"));
      default -> throw new IllegalArgumentException(kind);
    };
  }

  private static Path cut(Path file) throws IOException {
    byte[] all = Files.readAllBytes(file);
    return Files.write(file, Arrays.copyOf(all, all.length / 2));
  }

  private static int grain(int x, int y) {
    return (x * 7919 ^ y * 104729) >> 3 & 0xff;
  }

  private static Path grained(String format, Path file) throws IOException {
    BufferedImage image = new BufferedImage(300, 200, BufferedImage.TYPE_BYTE_GRAY);
    for (int y = 0; y < 200; y++) {
      for (int x = 0; x < 300; x++) {
        image.getRaster().setSample(x, y, 0, grain(x, y));
      }
    }
    ImageIO.write(image, format, file.toFile());
    return file;
  }

  private static Path flat(int width, int height, int grey, Path file) throws IOException {
    BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_BYTE_GRAY);
    for (int y = 0; y < height; y++) {
      for (int x = 0; x < width; x++) {
        image.getRaster().setSample(x, y, 0, grey);
      }
    }
    ImageIO.write(image, "png", file.toFile());
    return file;
  }

  /** The start of a container of a format that is not read. */
  private static Path webp(Path file) throws IOException {
    return Files.write(
        file, Arrays.copyOf("RIFF....WEBPVP8 ".getBytes(StandardCharsets.US_ASCII), 400));
  }

  /** Four bands without a colour space: read by every decoder as CMYK. */
  private static Path cmyk(Path file) throws IOException {
    WritableRaster raster = Raster.createInterleavedRaster(DataBuffer.TYPE_BYTE, 300, 200, 4, null);
    for (int y = 0; y < 200; y++) {
      for (int x = 0; x < 300; x++) {
        for (int b = 0; b < 4; b++) {
          raster.setSample(x, y, b, grain(x + b, y));
        }
      }
    }
    ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
    try (ImageOutputStream out = ImageIO.createImageOutputStream(file.toFile())) {
      writer.setOutput(out);
      writer.write(null, new IIOImage(raster, null, null), null);
    } finally {
      writer.dispose();
    }
    return file;
  }
}
