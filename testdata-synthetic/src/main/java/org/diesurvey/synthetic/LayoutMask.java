package org.diesurvey.synthetic;

import java.awt.image.BufferedImage;
import java.awt.image.DataBufferByte;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import javax.imageio.ImageIO;

/** Layers of a block as one byte a pixel, row 0 at the top: a sum of the bits below. */
final class LayoutMask {
  static final int DIFFUSION = 1;
  static final int POLY = 2;
  static final int N_WELL = 4;
  static final int CONTACT = 8;
  static final int THICK_OXIDE = 16;
  static final int P_IMPLANT = 32;

  final int width;
  final int height;
  final byte[] bits;

  private LayoutMask(int width, int height, byte[] bits) {
    this.width = width;
    this.height = height;
    this.bits = bits;
  }

  /** Reads an 8-bit grey picture whose values are the bits themselves. */
  static LayoutMask read(Path file) {
    try {
      BufferedImage image = ImageIO.read(file.toFile());
      if (image == null || image.getType() != BufferedImage.TYPE_BYTE_GRAY) {
        throw new IOException(file + ": a layer mask is an 8-bit grey PNG");
      }
      byte[] bits = ((DataBufferByte) image.getRaster().getDataBuffer()).getData();
      return new LayoutMask(image.getWidth(), image.getHeight(), bits);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
