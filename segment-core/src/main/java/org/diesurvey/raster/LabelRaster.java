package org.diesurvey.raster;

/** A map of small codes (0 to 255) on the heap, one byte a pixel, row-major. */
public final class LabelRaster {
  private final int width;
  private final int height;
  private final byte[] codes;

  /** A map of zeros; both sides at least 1. */
  public LabelRaster(int width, int height) {
    this(width, height, new byte[Math.multiplyExact(width, height)]);
  }

  private LabelRaster(int width, int height, byte[] codes) {
    if (width < 1 || height < 1) {
      throw new IllegalArgumentException("raster must hold a pixel, was " + width + " x " + height);
    }
    this.width = width;
    this.height = height;
    this.codes = codes;
  }

  /**
   * A map over the given array, which is not copied: the caller hands it over.
   *
   * @param codes row-major, exactly width x height
   */
  public static LabelRaster over(int width, int height, byte[] codes) {
    if (codes.length != (long) width * height) {
      throw new IllegalArgumentException(
          "array of " + codes.length + " codes for " + width + " x " + height + " px");
    }
    return new LabelRaster(width, height, codes);
  }

  /** Columns. */
  public int width() {
    return width;
  }

  /** Rows. */
  public int height() {
    return height;
  }

  /** The code at column x, row y, 0 to 255. */
  public int get(int x, int y) {
    return codes[y * width + x] & 0xff;
  }

  /** Sets the code at column x, row y. */
  public void set(int x, int y, int code) {
    codes[y * width + x] = (byte) code;
  }

  /** The row-major array itself, for loops over whole rows; writing to it changes this map. */
  public byte[] array() {
    return codes;
  }
}
