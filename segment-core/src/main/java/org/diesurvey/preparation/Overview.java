package org.diesurvey.preparation;

import org.diesurvey.photo.PixelSource;
import org.diesurvey.raster.PixelRect;

/**
 * The whole photograph reduced by an integer factor through area averaging, as three colour planes
 * of 0 to 1. Read in row bands; trailing rows and columns that do not fill a cell are left out.
 */
final class Overview {
  private final int factor;
  private final int width;
  private final int height;
  private final float[][] planes;

  private Overview(int factor, int width, int height, float[][] planes) {
    this.factor = factor;
    this.width = width;
    this.height = height;
    this.planes = planes;
  }

  /**
   * Reads the photograph once.
   *
   * @param longSideCells upper limit for the longer side of the overview
   */
  static Overview of(PixelSource source, int longSideCells) {
    int longSide = Math.max(source.width(), source.height());
    int factor = Math.max(1, (longSide + longSideCells - 1) / longSideCells);
    int width = source.width() / factor;
    int height = source.height() / factor;
    float[][] planes = new float[3][width * height];
    int[] band = new int[source.width() * factor];
    // Every second pixel of a cell is enough for a mean and halves the reading of large factors.
    int step = factor >= 4 ? 2 : 1;
    for (int r = 0; r < height; r++) {
      source.readRgb(new PixelRect(0, r * factor, source.width(), factor), band);
      reduceRow(band, source.width(), factor, step, width, r, planes);
    }
    return new Overview(factor, width, height, planes);
  }

  private static void reduceRow(
      int[] band, int bandWidth, int factor, int step, int width, int row, float[][] planes) {
    int rows = (factor + step - 1) / step;
    float scale = 1f / (255f * rows * rows);
    for (int c = 0; c < width; c++) {
      int red = 0;
      int green = 0;
      int blue = 0;
      for (int y = 0; y < factor; y += step) {
        int at = y * bandWidth + c * factor;
        for (int x = 0; x < factor; x += step) {
          int rgb = band[at + x];
          red += (rgb >> 16) & 0xff;
          green += (rgb >> 8) & 0xff;
          blue += rgb & 0xff;
        }
      }
      int at = row * width + c;
      planes[0][at] = red * scale;
      planes[1][at] = green * scale;
      planes[2][at] = blue * scale;
    }
  }

  int factor() {
    return factor;
  }

  int width() {
    return width;
  }

  int height() {
    return height;
  }

  /** Channel 0 red, 1 green, 2 blue; row-major. */
  float[] plane(int channel) {
    return planes[channel];
  }
}
