package org.diesurvey.report;

import java.awt.image.BufferedImage;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.raster.PixelRect;

/** A decoded picture as a source of pixels. */
public final class ImageSource implements PixelSource {
  private final int width;
  private final int height;
  private final int[] rgb;

  public ImageSource(BufferedImage image) {
    width = image.getWidth();
    height = image.getHeight();
    rgb = image.getRGB(0, 0, width, height, null, 0, width);
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
    int[] rgb = new int[window.width() * window.height()];
    readRgb(window, rgb);
    for (int i = 0; i < rgb.length; i++) {
      int p = rgb[i];
      target[i] = (0.299f * (p >> 16 & 255) + 0.587f * (p >> 8 & 255) + 0.114f * (p & 255)) / 255;
    }
  }

  @Override
  public void readRgb(PixelRect window, int[] target) {
    for (int y = 0; y < window.height(); y++) {
      System.arraycopy(
          rgb, (window.y() + y) * width + window.x(), target, y * window.width(), window.width());
    }
  }

  @Override
  public void close() {}
}
