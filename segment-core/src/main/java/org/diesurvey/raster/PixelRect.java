package org.diesurvey.raster;

import org.diesurvey.Supported;

/**
 * A rectangle of whole pixels, half open: columns x to x + width - 1, rows y to y + height - 1.
 *
 * @param x first column
 * @param y first row
 * @param width columns, at least 1
 * @param height rows, at least 1
 */
@Supported
public record PixelRect(int x, int y, int width, int height) {

  /** Rejects empty rectangles. */
  public PixelRect {
    if (width < 1 || height < 1) {
      throw new IllegalArgumentException(
          "rectangle must hold at least one pixel, was " + width + " x " + height);
    }
  }

  /** The part of this rectangle that lies in an image of the given size. */
  public PixelRect within(int imageWidth, int imageHeight) {
    int x0 = Math.max(0, x);
    int y0 = Math.max(0, y);
    int x1 = Math.min(imageWidth, x + width);
    int y1 = Math.min(imageHeight, y + height);
    return new PixelRect(x0, y0, x1 - x0, y1 - y0);
  }
}
