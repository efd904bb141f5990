package org.diesurvey.report.picture;

import java.awt.image.BufferedImage;
import java.awt.image.DataBufferInt;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.raster.PixelRect;

/**
 * A photograph made smaller (mean of k x k px) or, if very small, larger (every pixel k x k times)
 * for a picture that a person looks at.
 *
 * @param image 0xRRGGBB
 * @param scale picture px per photo px
 */
record ReducedPhoto(BufferedImage image, double scale) {
  /** Long side below which a photograph is enlarged, px. */
  private static final int SMALL_PX = 800;

  /**
   * @param longestPx limit of the long side of the picture
   */
  static ReducedPhoto of(PixelSource photo, int longestPx) {
    int longest = Math.max(photo.width(), photo.height());
    if (longest < SMALL_PX) {
      return enlarged(photo, Math.min(64, (SMALL_PX + longest - 1) / longest));
    }
    return reduced(photo, (longest + longestPx - 1) / longestPx);
  }

  /** The photograph with k x k px averaged to one. */
  static ReducedPhoto by(PixelSource photo, int k) {
    return reduced(photo, k);
  }

  private static ReducedPhoto reduced(PixelSource photo, int k) {
    // A last row or column narrower than k is dropped, unless nothing else is there.
    int width = Math.max(1, photo.width() / k);
    int height = Math.max(1, photo.height() / k);
    int usedWidth = Math.min(photo.width(), width * k);
    BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
    int[] target = ((DataBufferInt) image.getRaster().getDataBuffer()).getData();
    int[] band = new int[Math.multiplyExact(usedWidth, Math.min(k, photo.height()))];
    for (int y = 0; y < height; y++) {
      int rows = Math.min(k, photo.height() - y * k);
      photo.readRgb(new PixelRect(0, y * k, usedWidth, rows), band);
      for (int x = 0; x < width; x++) {
        target[y * width + x] = mean(band, usedWidth, x * k, Math.min(k, usedWidth - x * k), rows);
      }
    }
    return new ReducedPhoto(image, 1.0 / k);
  }

  /** Mean of each channel over a block of a band. */
  static int mean(int[] band, int stride, int x0, int columns, int rows) {
    int red = 0;
    int green = 0;
    int blue = 0;
    for (int y = 0; y < rows; y++) {
      for (int i = y * stride + x0; i < y * stride + x0 + columns; i++) {
        int rgb = band[i];
        red += rgb >> 16 & 0xff;
        green += rgb >> 8 & 0xff;
        blue += rgb & 0xff;
      }
    }
    int n = columns * rows;
    return (red / n) << 16 | (green / n) << 8 | blue / n;
  }

  private static ReducedPhoto enlarged(PixelSource photo, int k) {
    int width = photo.width() * k;
    BufferedImage image = new BufferedImage(width, photo.height() * k, BufferedImage.TYPE_INT_RGB);
    int[] target = ((DataBufferInt) image.getRaster().getDataBuffer()).getData();
    int[] row = new int[photo.width()];
    for (int y = 0; y < image.getHeight(); y++) {
      if (y % k == 0) {
        photo.readRgb(new PixelRect(0, y / k, photo.width(), 1), row);
      }
      for (int x = 0; x < width; x++) {
        target[y * width + x] = row[x / k] & 0xFFFFFF;
      }
    }
    return new ReducedPhoto(image, k);
  }
}
