package org.diesurvey.raster;

/**
 * A grey picture on the heap: row-major floats, 0 (black) to 1 (white) unless a holder says
 * otherwise.
 */
public final class GrayRaster {
  private final int width;
  private final int height;
  private final float[] values;

  /** A picture of zeros; both sides at least 1. */
  public GrayRaster(int width, int height) {
    this(width, height, new float[Math.multiplyExact(width, height)]);
  }

  private GrayRaster(int width, int height, float[] values) {
    if (width < 1 || height < 1) {
      throw new IllegalArgumentException("raster must hold a pixel, was " + width + " x " + height);
    }
    this.width = width;
    this.height = height;
    this.values = values;
  }

  /**
   * A raster over the given array, which is not copied: the caller hands it over.
   *
   * @param values row-major, exactly width x height
   */
  public static GrayRaster over(int width, int height, float[] values) {
    if (values.length != (long) width * height) {
      throw new IllegalArgumentException(
          "array of " + values.length + " values for " + width + " x " + height + " px");
    }
    return new GrayRaster(width, height, values);
  }

  /** Columns. */
  public int width() {
    return width;
  }

  /** Rows. */
  public int height() {
    return height;
  }

  /** The value at column x, row y. */
  public float get(int x, int y) {
    return values[y * width + x];
  }

  /** Sets the value at column x, row y. */
  public void set(int x, int y, float value) {
    values[y * width + x] = value;
  }

  /** The row-major array itself, for loops over whole rows; writing to it changes this raster. */
  public float[] array() {
    return values;
  }
}
