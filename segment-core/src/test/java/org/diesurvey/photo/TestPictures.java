package org.diesurvey.photo;

import java.awt.color.ColorSpace;
import java.awt.image.BufferedImage;
import java.awt.image.ComponentColorModel;
import java.awt.image.DataBuffer;
import java.awt.image.WritableRaster;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.Random;
import javax.imageio.ImageIO;

/** Pictures with seeded, smooth-and-noisy content, made where they are needed. */
public final class TestPictures {
  private TestPictures() {}

  /** Interleaved picture: samples 1 grey, 2 grey and alpha, 3 RGB, 4 RGBA; bits 8 or 16. */
  public static BufferedImage picture(int width, int height, int samples, int bits, long seed) {
    int type = bits == 8 ? DataBuffer.TYPE_BYTE : DataBuffer.TYPE_USHORT;
    boolean alpha = samples % 2 == 0;
    ColorSpace space =
        ColorSpace.getInstance(samples >= 3 ? ColorSpace.CS_sRGB : ColorSpace.CS_GRAY);
    ComponentColorModel colours = new ComponentColorModel(space, alpha, false, alpha ? 3 : 1, type);
    WritableRaster raster = colours.createCompatibleWritableRaster(width, height);
    Random random = new Random(seed);
    int top = (1 << bits) - 1;
    for (int y = 0; y < height; y++) {
      for (int x = 0; x < width; x++) {
        for (int s = 0; s < samples; s++) {
          double wave = 0.5 + 0.4 * Math.sin(0.13 * x + 0.07 * y * (s + 1));
          double noise = random.nextInt(4) == 0 ? 0.1 * random.nextDouble() : 0;
          raster.setSample(x, y, s, (int) (top * Math.min(1, wave + noise)));
        }
      }
    }
    return new BufferedImage(colours, raster, false, null);
  }

  /** One tone everywhere, 8-bit grey. */
  static BufferedImage flat(int width, int height, int level) {
    BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_BYTE_GRAY);
    for (int y = 0; y < height; y++) {
      for (int x = 0; x < width; x++) {
        image.getRaster().setSample(x, y, 0, level);
      }
    }
    return image;
  }

  static Path write(BufferedImage image, String format, Path file) {
    try {
      if (!ImageIO.write(image, format, file.toFile())) {
        throw new IllegalStateException("no writer for " + format);
      }
      return file;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Luma of BT.601 of the stored samples, the largest storable value being 1. */
  static double luma(WritableRaster raster, int x, int y, int bits) {
    double top = (1 << bits) - 1;
    double r = raster.getSample(x, y, 0) / top;
    if (raster.getNumBands() < 3) {
      return r;
    }
    double g = raster.getSample(x, y, 1) / top;
    double b = raster.getSample(x, y, 2) / top;
    return 0.299 * r + 0.587 * g + 0.114 * b;
  }

  /** The colour as 0xRRGGBB from the high bytes of the stored samples. */
  static int rgb(WritableRaster raster, int x, int y, int bits) {
    int shift = bits - 8;
    int r = raster.getSample(x, y, 0) >> shift;
    if (raster.getNumBands() < 3) {
      return r << 16 | r << 8 | r;
    }
    return r << 16 | (raster.getSample(x, y, 1) >> shift) << 8 | raster.getSample(x, y, 2) >> shift;
  }
}
