package org.diesurvey.preparation.edges;

import org.diesurvey.photo.PixelSource;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.raster.PixelRect;
import org.diesurvey.vision.ImageFilters;

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

  /** The same picture with half as many cells along each side. */
  Overview halved() {
    int w = Math.max(1, width / 2);
    int h = Math.max(1, height / 2);
    float[][] half = new float[3][w * h];
    for (int ch = 0; ch < 3; ch++) {
      float[] p = planes[ch];
      for (int i = 0; i < half[ch].length; i++) {
        int at = i / w * 2 * width + i % w * 2;
        int below = height > 1 ? at + width : at;
        int right = width > 1 ? 1 : 0;
        half[ch][i] = 0.25f * (p[at] + p[at + right] + p[below] + p[below + right]);
      }
    }
    return new Overview(2 * factor, w, h, half);
  }

  /**
   * The same picture blurred: grains of a rough ground fall together.
   *
   * @param sigmaCells standard deviation of the blur, cells
   */
  Overview blurred(double sigmaCells) {
    float[][] soft = new float[3][];
    for (int ch = 0; ch < 3; ch++) {
      soft[ch] =
          ImageFilters.gaussian(GrayRaster.over(width, height, planes[ch]), sigmaCells).array();
    }
    return new Overview(factor, width, height, soft);
  }

  /**
   * The same picture without the brightness of a ground, see {@link ChromaResidual}.
   *
   * @param ground colour, red, green, blue from 0 to 1
   */
  Overview colourRest(float[] ground) {
    float[] axis = ChromaResidual.axis(ground);
    float[][] rest = new float[3][width * height];
    float[] c = new float[3];
    for (int i = 0; i < width * height; i++) {
      for (int ch = 0; ch < 3; ch++) {
        c[ch] = planes[ch][i];
      }
      ChromaResidual.reduce(c, axis);
      for (int ch = 0; ch < 3; ch++) {
        rest[ch][i] = c[ch];
      }
    }
    return new Overview(factor, width, height, rest);
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

  /** Distance of a cell's colour from another, 0 to the root of 3. */
  double distance(int cell, float[] colour) {
    double sum = 0;
    for (int ch = 0; ch < 3; ch++) {
      double d = planes[ch][cell] - colour[ch];
      sum += d * d;
    }
    return Math.sqrt(sum);
  }

  /** Channel 0 red, 1 green, 2 blue; row-major. */
  float[] plane(int channel) {
    return planes[channel];
  }
}
