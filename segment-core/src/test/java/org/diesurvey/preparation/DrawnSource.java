package org.diesurvey.preparation;

import java.util.SplittableRandom;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.raster.PixelPoint;
import org.diesurvey.raster.PixelRect;

/** A grey photograph drawn from a formula, stored in 8 bits like a camera's. */
public final class DrawnSource implements PixelSource {
  private static final int SAMPLES = 4;

  private final int width;
  private final int height;
  private final byte[] levels;

  /** Grey, 0 to 1, of a place in px. */
  public interface Grey {
    double at(double x, double y);
  }

  private DrawnSource(int width, int height) {
    this.width = width;
    this.height = height;
    this.levels = new byte[width * height];
  }

  /** Every pixel is the mean of 4 x 4 places in it, without noise. */
  public static DrawnSource of(int width, int height, Grey grey) {
    return noisy(width, height, 0, 1, grey);
  }

  /** The same with Gaussian noise of a standard deviation in grey, the same for the same seed. */
  public static DrawnSource noisy(int width, int height, double noise, long seed, Grey grey) {
    return drawn(width, height, SAMPLES, noise, seed, grey);
  }

  /** Every pixel is the grey in its middle, with noise: sharper, and drawn much sooner. */
  public static DrawnSource sampled(int width, int height, double noise, long seed, Grey grey) {
    return drawn(width, height, 1, noise, seed, grey);
  }

  private static DrawnSource drawn(
      int width, int height, int samples, double noise, long seed, Grey grey) {
    DrawnSource s = new DrawnSource(width, height);
    SplittableRandom random = new SplittableRandom(seed);
    for (int y = 0; y < height; y++) {
      for (int x = 0; x < width; x++) {
        double sum = 0;
        for (int i = 0; i < samples; i++) {
          for (int j = 0; j < samples; j++) {
            sum += grey.at(x + (j + 0.5) / samples, y + (i + 0.5) / samples);
          }
        }
        double v = sum / (samples * samples) + noise * random.nextGaussian();
        s.levels[y * width + x] = (byte) Math.round(255 * Math.max(0, Math.min(1, v)));
      }
    }
    return s;
  }

  /** This picture as a die that fills it exactly, upright, with its edge known or not. */
  public PreparedDie wholeAsDie(boolean edgeFound, int bin) {
    java.util.List<PixelPoint> corners =
        java.util.List.of(
            new PixelPoint(0, 0),
            new PixelPoint(width, 0),
            new PixelPoint(width, height),
            new PixelPoint(0, height));
    return PreparedDie.of(this, new DieLocation(edgeFound, corners, 0, 0.5), bin);
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

  private int level(int x, int y) {
    return levels[y * width + x] & 0xff;
  }

  @Override
  public void close() {
    // Nothing is held but the heap.
  }
}
