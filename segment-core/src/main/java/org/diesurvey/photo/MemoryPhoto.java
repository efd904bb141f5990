package org.diesurvey.photo;

import java.awt.image.BufferedImage;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.Optional;
import org.diesurvey.photo.file.SampleBlock;
import org.diesurvey.raster.PixelRect;

/** Photographs whose pixels a program holds already. */
final class MemoryPhoto {
  /** Format of such a photograph in documents. */
  static final String FORMAT = "MEMORY";

  private MemoryPhoto() {}

  static DiePhoto of(
      String name, byte[] bytes, short[] shorts, int width, int height, int channels) {
    int length = bytes != null ? bytes.length : shorts.length;
    if (channels < 1 || channels > 4) {
      throw new IllegalArgumentException("channels must be in 1..4, was " + channels);
    }
    if (width < 1 || height < 1 || (long) width * height * channels != length) {
      throw new IllegalArgumentException(
          length
              + " samples are not "
              + width
              + " x "
              + height
              + " px of "
              + channels
              + " channels");
    }
    SampleBlock.Order order = SampleBlock.Order.interleaved(width, channels);
    SampleBlock block =
        bytes != null
            ? SampleBlock.of8Bit(bytes.clone(), order)
            : SampleBlock.of16Bit(shorts.clone(), order);
    return of(name, new DecodedPixels(width, height, block), bytes != null ? 8 : 16, channels);
  }

  static DiePhoto of(String name, BufferedImage image) {
    Expanded expanded = Expanded.of(image);
    int bands = image.getColorModel().getNumComponents();
    return of(name, expanded.pixels(), expanded.bits(), Expanded.asStored(image) ? bands : 3);
  }

  static DiePhoto of(String name, PixelSource pixels, int bits, int channels) {
    PhotoInfo info =
        new PhotoInfo(
            name,
            sha256(pixels),
            (long) pixels.width() * pixels.height() * channels * bits / 8,
            FORMAT,
            pixels.width(),
            pixels.height(),
            bits,
            channels,
            Optional.empty());
    return DiePhoto.of(info, pixels);
  }

  /** SHA-256 of the size and of the grey levels, row by row: equal pixels have equal sums. */
  private static String sha256(PixelSource pixels) {
    MessageDigest digest;
    try {
      digest = MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
    String size = pixels.width() + " x " + pixels.height() + "\n";
    digest.update(size.getBytes(StandardCharsets.US_ASCII));
    float[] row = new float[pixels.width()];
    int[] rgb = new int[pixels.width()];
    byte[] bytes = new byte[8 * row.length];
    for (int y = 0; y < pixels.height(); y++) {
      PixelRect window = new PixelRect(0, y, pixels.width(), 1);
      pixels.readGray(window, row);
      pixels.readRgb(window, rgb);
      for (int x = 0; x < row.length; x++) {
        long both = (long) Float.floatToIntBits(row[x]) << 32 | rgb[x] & 0xffffffffL;
        for (int k = 0; k < 8; k++) {
          bytes[8 * x + k] = (byte) (both >>> 8 * k);
        }
      }
      digest.update(bytes);
    }
    return HexFormat.of().formatHex(digest.digest());
  }
}
