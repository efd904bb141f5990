package org.diesurvey.cli;

import org.diesurvey.photo.PixelSource;
import org.diesurvey.raster.PixelRect;
import org.diesurvey.synthetic.DrawnDie;

/** A drawn picture as a source of pixels, without a file in between. */
final class DrawnPixels implements PixelSource {
  private final int width;
  private final int height;
  private final byte[] rgb;

  DrawnPixels(DrawnDie die) {
    this(die.widthPx(), die.heightPx(), die.rgb());
  }

  /**
   * @param rgb red, green, blue per pixel, row by row; not copied
   */
  DrawnPixels(int width, int height, byte[] rgb) {
    this.width = width;
    this.height = height;
    this.rgb = rgb;
  }

  @Override
  public int width() {
    return width;
  }

  @Override
  public int height() {
    return height;
  }

  @Override
  public void readGray(PixelRect window, float[] target) {
    int i = 0;
    for (int y = window.y(); y < window.y() + window.height(); y++) {
      int p = 3 * (y * width + window.x());
      for (int x = 0; x < window.width(); x++, p += 3) {
        float luma =
            0.299f * (rgb[p] & 255) + 0.587f * (rgb[p + 1] & 255) + 0.114f * (rgb[p + 2] & 255);
        target[i++] = luma / 255;
      }
    }
  }

  @Override
  public void readRgb(PixelRect window, int[] target) {
    int i = 0;
    for (int y = window.y(); y < window.y() + window.height(); y++) {
      int p = 3 * (y * width + window.x());
      for (int x = 0; x < window.width(); x++, p += 3) {
        target[i++] = (rgb[p] & 255) << 16 | (rgb[p + 1] & 255) << 8 | (rgb[p + 2] & 255);
      }
    }
  }

  @Override
  public void close() {
    // Nothing is held open.
  }
}
