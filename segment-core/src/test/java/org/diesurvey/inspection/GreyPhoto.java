package org.diesurvey.inspection;

import java.util.SplittableRandom;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.preparation.DieLocation;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.raster.PixelPoint;
import org.diesurvey.raster.PixelRect;
import org.diesurvey.synthetic.DieDrawing;
import org.diesurvey.synthetic.DrawOptions;
import org.diesurvey.synthetic.DrawnDie;
import org.diesurvey.vision.ImageFilters;

/** A grey photograph that a test spoils in a known way; stored in 8 bits like a camera's. */
final class GreyPhoto implements PixelSource {
  private final GrayRaster grey;

  GreyPhoto(GrayRaster grey) {
    this.grey = grey;
  }

  /** Grey, 0 to 1, of a place in px. */
  interface Grey {
    double at(double x, double y);
  }

  static GreyPhoto of(int width, int height, Grey at) {
    GrayRaster r = new GrayRaster(width, height);
    for (int y = 0; y < height; y++) {
      for (int x = 0; x < width; x++) {
        r.set(x, y, (float) at.at(x + 0.5, y + 0.5));
      }
    }
    return new GreyPhoto(r);
  }

  /** A die of plain contrast without faults: where edges abound, focus can be judged everywhere. */
  static DrawnDie plain(long seed, double megapixels) {
    return DieDrawing.draw(
        seed,
        DrawOptions.defaults()
            .withMaxMegapixels(megapixels)
            .withSeverity(0)
            .withStyle(DrawOptions.Style.SHOWPIECE));
  }

  /** A drawn die without faults of light, dirt or camera but a little noise. */
  static DrawnDie clean(long seed, double megapixels) {
    return DieDrawing.draw(
        seed, DrawOptions.defaults().withMaxMegapixels(megapixels).withSeverity(0));
  }

  static GreyPhoto of(DrawnDie die) {
    GrayRaster r = new GrayRaster(die.widthPx(), die.heightPx());
    byte[] b = die.rgb();
    for (int i = 0; i < r.array().length; i++) {
      r.array()[i] =
          (299 * (b[3 * i] & 255) + 587 * (b[3 * i + 1] & 255) + 114 * (b[3 * i + 2] & 255))
              / 255_000f;
    }
    return new GreyPhoto(r);
  }

  GreyPhoto copy() {
    return new GreyPhoto(GrayRaster.over(grey.width(), grey.height(), grey.array().clone()));
  }

  GreyPhoto part(int x0, int y0, int width, int height) {
    GrayRaster r = new GrayRaster(width, height);
    for (int y = 0; y < height; y++) {
      for (int x = 0; x < width; x++) {
        r.set(x, y, grey.get(x0 + x, y0 + y));
      }
    }
    return new GreyPhoto(r);
  }

  GreyPhoto blurred(double sigmaPx) {
    return new GreyPhoto(ImageFilters.gaussian(grey, sigmaPx));
  }

  GreyPhoto noisy(double sigma, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    for (int i = 0; i < grey.array().length; i++) {
      grey.array()[i] += (float) (sigma * random.nextGaussian());
    }
    return this;
  }

  /** Multiplies by a field over u and v, which run from -1 to 1. */
  GreyPhoto times(Grey field) {
    for (int y = 0; y < height(); y++) {
      for (int x = 0; x < width(); x++) {
        double u = 2 * (x + 0.5) / width() - 1;
        double v = 2 * (y + 0.5) / height() - 1;
        grey.set(x, y, (float) (grey.get(x, y) * field.at(u, v)));
      }
    }
    return this;
  }

  /** Everything from a column (or row) on becomes brighter by a share. */
  GreyPhoto seam(boolean vertical, int place, double step) {
    for (int y = 0; y < height(); y++) {
      for (int x = 0; x < width(); x++) {
        if ((vertical ? x : y) >= place) {
          grey.set(x, y, (float) (grey.get(x, y) * (1 + step)));
        }
      }
    }
    return this;
  }

  /** What lies from a place on is moved on by a width, and the width before it is shown again. */
  GreyPhoto repeated(boolean vertical, int place, int width) {
    int w = width() + (vertical ? width : 0);
    int h = height() + (vertical ? 0 : width);
    GrayRaster r = new GrayRaster(w, h);
    for (int y = 0; y < h; y++) {
      for (int x = 0; x < w; x++) {
        int fx = vertical && x >= place ? x - width : x;
        int fy = !vertical && y >= place ? y - width : y;
        r.set(x, y, grey.get(fx, fy));
      }
    }
    return new GreyPhoto(r);
  }

  GrayRaster raster() {
    return grey;
  }

  /** A frame that says: no die edge, layout turned enough to tell seams. */
  DieLocation whole() {
    double w = width();
    double h = height();
    return new DieLocation(
        false,
        java.util.List.of(
            new PixelPoint(0, 0), new PixelPoint(w, 0), new PixelPoint(w, h), new PixelPoint(0, h)),
        1,
        0.5);
  }

  @Override
  public int width() {
    return grey.width();
  }

  @Override
  public int height() {
    return grey.height();
  }

  private int level(int x, int y) {
    return Math.max(0, Math.min(255, Math.round(255 * grey.get(x, y))));
  }

  @Override
  public void readGray(PixelRect w, float[] target) {
    for (int y = 0; y < w.height(); y++) {
      for (int x = 0; x < w.width(); x++) {
        target[y * w.width() + x] = level(w.x() + x, w.y() + y) / 255f;
      }
    }
  }

  @Override
  public void readRgb(PixelRect w, int[] target) {
    for (int y = 0; y < w.height(); y++) {
      for (int x = 0; x < w.width(); x++) {
        target[y * w.width() + x] = 0x10101 * level(w.x() + x, w.y() + y);
      }
    }
  }

  @Override
  public void close() {
    // Nothing is held but the heap.
  }
}
