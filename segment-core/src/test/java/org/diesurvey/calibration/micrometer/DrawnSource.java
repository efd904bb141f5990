package org.diesurvey.calibration.micrometer;

import org.diesurvey.photo.PixelSource;
import org.diesurvey.raster.PixelRect;
import org.diesurvey.synthetic.DrawnMicrometer;

/** A drawn micrometer as a source of pixels. */
record DrawnSource(DrawnMicrometer drawn) implements PixelSource {
  @Override
  public int width() {
    return drawn.widthPx();
  }

  @Override
  public int height() {
    return drawn.heightPx();
  }

  @Override
  public void readGray(PixelRect window, float[] target) {
    byte[] rgb = drawn.rgb();
    int i = 0;
    for (int y = window.y(); y < window.y() + window.height(); y++) {
      int p = 3 * (y * width() + window.x());
      for (int x = 0; x < window.width(); x++, p += 3) {
        target[i++] =
            (0.299f * (rgb[p] & 255) + 0.587f * (rgb[p + 1] & 255) + 0.114f * (rgb[p + 2] & 255))
                / 255;
      }
    }
  }

  @Override
  public void readRgb(PixelRect window, int[] target) {
    throw new UnsupportedOperationException();
  }

  @Override
  public void close() {
    // Nothing is held open.
  }
}
