package org.diesurvey.report.picture;

import java.awt.Color;
import java.io.Closeable;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.zip.CRC32;
import java.util.zip.Deflater;

/**
 * Writes an 8-bit grey, RGB or palette picture as PNG (W3C, "Portable Network Graphics
 * Specification, Third Edition"), row by row, with the filter "up" on every row and fast deflate:
 * maps of regions pack to next to nothing and the writing keeps pace with large photographs.
 */
final class PngRows implements Closeable {
  private static final byte[] SIGNATURE = {(byte) 0x89, 'P', 'N', 'G', '\r', '\n', 0x1a, '\n'};
  private static final int FILTER_UP = 2;

  private final OutputStream out;
  private final Deflater deflater = new Deflater(Deflater.BEST_SPEED);
  private final byte[] previous;
  private final byte[] filtered;
  private final byte[] packed = new byte[1 << 16];
  private final int height;
  private int rows;

  /**
   * @param out receives the file; closed with this writer
   * @param channels 1 grey or 3 RGB
   */
  PngRows(OutputStream out, int width, int height, int channels) throws IOException {
    this(out, width, height, channels, List.of());
  }

  /**
   * A picture whose samples are numbers of colours.
   *
   * @param palette the colours, at most 256
   */
  PngRows(OutputStream out, int width, int height, List<Color> palette) throws IOException {
    this(out, width, height, 1, palette);
  }

  private PngRows(OutputStream out, int width, int height, int channels, List<Color> palette)
      throws IOException {
    this.out = out;
    this.height = height;
    previous = new byte[Math.multiplyExact(width, channels)];
    filtered = new byte[previous.length + 1];
    filtered[0] = FILTER_UP;
    out.write(SIGNATURE);
    ByteBuffer header = ByteBuffer.allocate(13);
    int kind = !palette.isEmpty() ? 3 : channels == 3 ? 2 : 0;
    header.putInt(width).putInt(height).put((byte) 8).put((byte) kind);
    chunk("IHDR", header.array(), 13);
    byte[] software = Pictures.MARK.getBytes(StandardCharsets.ISO_8859_1);
    chunk("tEXt", software, software.length);
    if (!palette.isEmpty()) {
      ByteBuffer colours = ByteBuffer.allocate(3 * palette.size());
      palette.forEach(
          c -> colours.put((byte) c.getRed()).put((byte) c.getGreen()).put((byte) c.getBlue()));
      chunk("PLTE", colours.array(), colours.capacity());
    }
  }

  /** Adds the next row: width x channels samples. */
  void row(byte[] samples) throws IOException {
    for (int i = 0; i < previous.length; i++) {
      filtered[i + 1] = (byte) (samples[i] - previous[i]);
    }
    System.arraycopy(samples, 0, previous, 0, previous.length);
    deflater.setInput(filtered);
    while (!deflater.needsInput()) {
      drain();
    }
    rows++;
  }

  private void drain() throws IOException {
    int n = deflater.deflate(packed);
    if (n > 0) {
      chunk("IDAT", packed, n);
    }
  }

  private void chunk(String type, byte[] data, int length) throws IOException {
    byte[] name = type.getBytes(StandardCharsets.US_ASCII);
    CRC32 crc = new CRC32();
    crc.update(name);
    crc.update(data, 0, length);
    out.write(ByteBuffer.allocate(4).putInt(length).array());
    out.write(name);
    out.write(data, 0, length);
    out.write(ByteBuffer.allocate(4).putInt((int) crc.getValue()).array());
  }

  /** Finishes the file. */
  @Override
  public void close() throws IOException {
    try (out) {
      if (rows == height) {
        deflater.finish();
        while (!deflater.finished()) {
          drain();
        }
        chunk("IEND", new byte[0], 0);
      }
    } finally {
      deflater.end();
    }
  }
}
