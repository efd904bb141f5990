package org.diesurvey.photo;

import org.diesurvey.photo.file.SampleBlock;
import org.diesurvey.raster.PixelRect;

/** A photograph held decoded in memory, in the samples that the file stored. */
final class DecodedPixels implements StoredPixels {
  private final int width;
  private final int height;
  private final SampleBlock samples;

  DecodedPixels(int width, int height, SampleBlock samples) {
    this.width = width;
    this.height = height;
    this.samples = samples;
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
    Windows.check(window, this, target.length);
    for (int y = 0; y < window.height(); y++) {
      samples.gray(window.x(), window.y() + y, window.width(), target, y * window.width());
    }
  }

  @Override
  public void readRgb(PixelRect window, int[] target) {
    Windows.check(window, this, target.length);
    for (int y = 0; y < window.height(); y++) {
      samples.rgb(window.x(), window.y() + y, window.width(), target, y * window.width());
    }
  }

  @Override
  public void readRgb(PixelRect window, int[] target, byte[] table) {
    Windows.check(window, this, target.length);
    for (int y = 0; y < window.height(); y++) {
      samples.rgb(window.x(), window.y() + y, window.width(), target, y * window.width(), table);
    }
  }

  /** Nothing to close: the samples go with the object. */
  @Override
  public void close() {}
}
