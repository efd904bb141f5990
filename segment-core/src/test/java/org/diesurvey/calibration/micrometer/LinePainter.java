package org.diesurvey.calibration.micrometer;

import java.util.Random;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.raster.PixelRect;
import org.diesurvey.vision.ImageFilters;

/** Small pictures of engraved lines, painted by hand for cases that no generator draws. */
final class LinePainter implements PixelSource {
  private final GrayRaster picture;

  LinePainter(int width, int height, double ground) {
    picture = new GrayRaster(width, height);
    java.util.Arrays.fill(picture.array(), (float) ground);
  }

  /** A straight line by exact coverage across it, 2.5 px wide. */
  LinePainter line(double x0, double y0, double x1, double y1, double grey) {
    double length = Math.hypot(x1 - x0, y1 - y0);
    double ux = (x1 - x0) / length;
    double uy = (y1 - y0) / length;
    for (int y = 0; y < picture.height(); y++) {
      for (int x = 0; x < picture.width(); x++) {
        double along = (x + 0.5 - x0) * ux + (y + 0.5 - y0) * uy;
        double across = Math.abs((y + 0.5 - y0) * ux - (x + 0.5 - x0) * uy);
        double cover = Math.max(0, Math.min(1, 1.75 - across));
        if (along >= 0 && along <= length && cover > 0) {
          float v = picture.get(x, y);
          picture.set(x, y, (float) (v + cover * (grey - v)));
        }
      }
    }
    return this;
  }

  /** Upright lines at equal steps. */
  LinePainter scale(double firstX, double step, int lines, double top, double bottom) {
    for (int i = 0; i < lines; i++) {
      line(firstX + i * step, top, firstX + i * step, bottom, 0.2);
    }
    return this;
  }

  /** Blur of 0.8 px and noise of 0.01. */
  LinePainter photographed() {
    float[] soft = ImageFilters.gaussian(picture, 0.8).array();
    Random random = new Random(7);
    for (int i = 0; i < soft.length; i++) {
      picture.array()[i] = (float) Math.min(1, soft[i] + 0.01 * random.nextGaussian());
    }
    return this;
  }

  /** The grey values themselves. */
  float[] pixels() {
    return picture.array();
  }

  @Override
  public int width() {
    return picture.width();
  }

  @Override
  public int height() {
    return picture.height();
  }

  @Override
  public void readGray(PixelRect window, float[] target) {
    int i = 0;
    for (int y = window.y(); y < window.y() + window.height(); y++) {
      for (int x = window.x(); x < window.x() + window.width(); x++) {
        target[i++] = picture.get(x, y);
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
