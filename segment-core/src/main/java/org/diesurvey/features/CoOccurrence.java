package org.diesurvey.features;

import org.diesurvey.raster.GrayRaster;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.raster.PixelRect;

/**
 * How often grey levels stand next to each other, and the texture statistics that follow from it.
 *
 * <p>Source: Haralick, Shanmugam and Dinstein, "Textural features for image classification", IEEE
 * Trans. SMC-3 (1973) 610-621 (formulas from memory, checked against published counts).
 *
 * <p>Conventions. The offset (dx, dy) is counted x right and y <em>down</em>. The paper's 45
 * degrees is up-right, (1, -1), and its 135 degrees up-left, (-1, -1); libraries that count rows
 * downwards call (1, 1) 45 degrees, so that their matrices for 45 and 135 degrees are exchanged.
 * The paper's matrices are symmetric (each pair counts both ways round); ours are made so by {@link
 * #symmetric()}. Entropy is given in nats and in bits. A tile of one level has no correlation; it
 * is defined as 1 here, as the open-source image library scikit-image does.
 */
public final class CoOccurrence {
  private final int levels;
  private final long[] counts;
  private final long total;

  private CoOccurrence(int levels, long[] counts) {
    this.levels = levels;
    this.counts = counts;
    long sum = 0;
    for (long c : counts) {
      sum += c;
    }
    this.total = sum;
  }

  /**
   * Counts the pairs (level at a place, level at the place plus the offset) that lie in the
   * picture, one way round.
   *
   * @param picture codes 0 to {@code levels} - 1
   * @param levels 2 to 256
   * @param dx columns to the right, smaller than the width
   * @param dy rows down, smaller than the height
   */
  public static CoOccurrence of(LabelRaster picture, int levels, int dx, int dy) {
    int width = picture.width();
    int height = picture.height();
    if (levels < 2 || levels > 256) {
      throw new IllegalArgumentException("levels must be in 2..256, was " + levels);
    }
    if (Math.abs(dx) >= width || Math.abs(dy) >= height) {
      throw new IllegalArgumentException(
          "no pair of pixels is ("
              + dx
              + ", "
              + dy
              + ") px apart in "
              + width
              + " x "
              + height
              + " px");
    }
    long[] counts = new long[levels * levels];
    for (int y = Math.max(0, -dy); y < Math.min(height, height - dy); y++) {
      for (int x = Math.max(0, -dx); x < Math.min(width, width - dx); x++) {
        int from = level(picture.get(x, y), levels);
        int to = level(picture.get(x + dx, y + dy), levels);
        counts[from * levels + to]++;
      }
    }
    return new CoOccurrence(levels, counts);
  }

  /**
   * Grey levels of a window: equal steps from {@code low} to {@code high}, values outside go to the
   * end levels.
   *
   * @param picture grey values
   * @param window lies inside the picture
   * @param levels 2 to 256
   * @param low grey value at the lower end of level 0
   * @param high grey value at the upper end of the last level, above {@code low}
   */
  public static LabelRaster quantised(
      GrayRaster picture, PixelRect window, int levels, double low, double high) {
    if (levels < 2 || levels > 256 || !(high > low)) {
      throw new IllegalArgumentException(
          "needs 2..256 levels and low < high, were " + levels + ", " + low + ", " + high);
    }
    LabelRaster result = new LabelRaster(window.width(), window.height());
    double perLevel = levels / (high - low);
    for (int y = 0; y < window.height(); y++) {
      for (int x = 0; x < window.width(); x++) {
        double step = Math.floor((picture.get(window.x() + x, window.y() + y) - low) * perLevel);
        result.set(x, y, (int) Math.max(0, Math.min(levels - 1, step)));
      }
    }
    return result;
  }

  /** Counts with every pair taken both ways round: the matrix plus its transpose. */
  public CoOccurrence symmetric() {
    long[] sum = new long[counts.length];
    for (int i = 0; i < levels; i++) {
      for (int j = 0; j < levels; j++) {
        sum[i * levels + j] = counts[i * levels + j] + counts[j * levels + i];
      }
    }
    return new CoOccurrence(levels, sum);
  }

  /** Number of grey levels. */
  public int levels() {
    return levels;
  }

  /** Number of pairs counted; at least 1. */
  public long total() {
    return total;
  }

  /** How often level {@code to} was found at the offset from level {@code from}. */
  public long count(int from, int to) {
    return counts[from * levels + to];
  }

  /** Angular second moment, the sum of p^2: 1 for one level, small for many equal pairs. */
  public double angularSecondMoment() {
    double sum = 0;
    for (long c : counts) {
      sum += square(c / (double) total);
    }
    return sum;
  }

  /** Contrast, the sum of (i - j)^2 p, in squared levels. */
  public double contrast() {
    return sum((i, j) -> square(i - j));
  }

  /** Inverse difference moment, the sum of p / (1 + (i - j)^2), above 0 to 1. */
  public double inverseDifferenceMoment() {
    return sum((i, j) -> 1 / (1 + square(i - j)));
  }

  /** Correlation of the two levels of a pair, -1 to 1; 1 where one of them never varies. */
  public double correlation() {
    double meanFrom = sum((i, j) -> i);
    double meanTo = sum((i, j) -> j);
    double varianceFrom = sum((i, j) -> square(i - meanFrom));
    double varianceTo = sum((i, j) -> square(j - meanTo));
    if (varianceFrom < CONSTANT || varianceTo < CONSTANT) {
      return 1;
    }
    return sum((i, j) -> (i - meanFrom) * (j - meanTo)) / Math.sqrt(varianceFrom * varianceTo);
  }

  /** Entropy, minus the sum of p ln p, in nats. */
  public double entropyNats() {
    double sum = 0;
    for (long c : counts) {
      if (c > 0) {
        double p = c / (double) total;
        sum -= p * Math.log(p);
      }
    }
    return sum;
  }

  /** Entropy, minus the sum of p log2 p, in bits. */
  public double entropyBits() {
    return entropyNats() / Math.log(2);
  }

  /** Below this variance (squared levels) only rounding is left: one level differs by 1. */
  private static final double CONSTANT = 1e-12;

  private interface Weight {
    double of(int i, int j);
  }

  private double sum(Weight weight) {
    double sum = 0;
    for (int i = 0; i < levels; i++) {
      for (int j = 0; j < levels; j++) {
        sum += weight.of(i, j) * counts[i * levels + j];
      }
    }
    return sum / total;
  }

  private static int level(int code, int levels) {
    if (code >= levels) {
      throw new IllegalArgumentException("level must be in 0.." + (levels - 1) + ", was " + code);
    }
    return code;
  }

  private static double square(double v) {
    return v * v;
  }
}
