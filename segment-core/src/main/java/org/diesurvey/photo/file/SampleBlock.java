package org.diesurvey.photo.file;

/**
 * Decoded samples of a rectangle: 8 or 16 bit, pixel by pixel, as they were stored. One picture or
 * one strip or tile of it.
 */
public final class SampleBlock {
  private final byte[] bytes;
  private final short[] shorts;
  private final int first;
  private final int rowStride;
  private final int pixelStride;
  private final int green;
  private final int blue;

  private SampleBlock(byte[] bytes, short[] shorts, Order order) {
    this.bytes = bytes;
    this.shorts = shorts;
    this.first = order.red;
    this.rowStride = order.rowStride;
    this.pixelStride = order.pixelStride;
    this.green = order.green - order.red;
    this.blue = order.blue - order.red;
  }

  /**
   * Where samples lie in an array: index of the first red, green and blue sample (all equal for
   * grey), samples from row to row and from pixel to pixel.
   */
  public record Order(int red, int green, int blue, int rowStride, int pixelStride) {
    /** Samples without gaps: grey, grey with alpha, RGB, RGB with alpha. */
    public static Order interleaved(int width, int samples) {
      boolean colour = samples >= 3;
      return new Order(0, colour ? 1 : 0, colour ? 2 : 0, width * samples, samples);
    }
  }

  public static SampleBlock of8Bit(byte[] samples, Order order) {
    return new SampleBlock(samples, null, order);
  }

  public static SampleBlock of16Bit(short[] samples, Order order) {
    return new SampleBlock(null, samples, order);
  }

  /** Bits of a sample. */
  public int bits() {
    return bytes != null ? 8 : 16;
  }

  /** Heap that the samples take. */
  public long sizeBytes() {
    return bytes != null ? bytes.length : 2L * shorts.length;
  }

  /**
   * Luma of part of a row, 0 to 1. The weights are whole thousandths, so that white is exactly 1.
   */
  public void gray(int x, int y, int count, float[] target, int at) {
    int i = first + y * rowStride + x * pixelStride;
    boolean colour = green != 0;
    if (bytes != null) {
      for (int k = at; k < at + count; k++, i += pixelStride) {
        int r = bytes[i] & 0xff;
        target[k] =
            colour ? luma(r, bytes[i + green] & 0xff, bytes[i + blue] & 0xff) / 255_000f : r / 255f;
      }
    } else {
      for (int k = at; k < at + count; k++, i += pixelStride) {
        int r = shorts[i] & 0xffff;
        target[k] =
            colour
                ? luma(r, shorts[i + green] & 0xffff, shorts[i + blue] & 0xffff) / 65_535_000f
                : r / 65_535f;
      }
    }
  }

  /** Colours of part of a row as 0xRRGGBB. */
  public void rgb(int x, int y, int count, int[] target, int at) {
    int i = first + y * rowStride + x * pixelStride;
    if (bytes != null) {
      for (int k = at; k < at + count; k++, i += pixelStride) {
        target[k] =
            (bytes[i] & 0xff) << 16 | (bytes[i + green] & 0xff) << 8 | bytes[i + blue] & 0xff;
      }
    } else {
      for (int k = at; k < at + count; k++, i += pixelStride) {
        target[k] =
            (shorts[i] & 0xff00) << 8
                | shorts[i + green] & 0xff00
                | (shorts[i + blue] & 0xff00) >>> 8;
      }
    }
  }

  /** The same with every sample looked up in a table of 8-bit levels. */
  public void rgb(int x, int y, int count, int[] target, int at, byte[] table) {
    int i = first + y * rowStride + x * pixelStride;
    for (int k = at; k < at + count; k++, i += pixelStride) {
      int r = table[sample(i)] & 0xff;
      target[k] = r << 16 | (table[sample(i + green)] & 0xff) << 8 | table[sample(i + blue)] & 0xff;
    }
  }

  private int sample(int i) {
    return bytes != null ? bytes[i] & 0xff : shorts[i] & 0xffff;
  }

  /** ITU-R BT.601 luma in thousandths of a level; fits an int for 16-bit samples. */
  private static int luma(int r, int g, int b) {
    return 299 * r + 587 * g + 114 * b;
  }
}
