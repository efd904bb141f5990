package org.diesurvey.preparation;

import java.util.Arrays;
import java.util.function.DoubleBinaryOperator;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.raster.PixelRect;

/**
 * Greys of small windows spread over a die, from which the fall-off of the light is read and the
 * middle of its greys.
 */
final class LightSample {
  /** Places along each side at which the light is looked at (own choice). */
  private static final int PER_SIDE = 40;

  /** Most pixels of a window's side: the mean of more is no surer, but costs time to read. */
  private static final int MOST_SIDE_PX = 100;

  private final double[] u;
  private final double[] v;
  private final double[] grey;

  /** Pixels of the middle row of each window. */
  private final float[] pixels;

  private LightSample(double[] u, double[] v, double[] grey, float[] pixels) {
    this.pixels = pixels;
    this.u = u;
    this.v = v;
    this.grey = grey;
  }

  /**
   * @param source the photograph with its grey as it is to be lit
   * @param die whose place, size and turn are known already
   */
  static LightSample of(PixelSource source, PreparedDie die) {
    int n = PER_SIDE;
    int side = Math.max(4, Math.min(MOST_SIDE_PX, Math.min(die.width(), die.height()) / 80));
    double[] u = new double[n * n];
    double[] v = new double[n * n];
    double[] grey = new double[n * n];
    float[] pixels = new float[n * n * side];
    int count = 0;
    float[] window = new float[side * side];
    for (int j = 0; j < n; j++) {
      for (int i = 0; i < n; i++) {
        double x = (i + 0.5) / n * die.width();
        double y = (j + 0.5) / n * die.height();
        if (die.missing(x, y)) {
          continue;
        }
        int px = (int) die.uprightToPhoto().x(x, y) - side / 2;
        int py = (int) die.uprightToPhoto().y(x, y) - side / 2;
        if (px < 0 || py < 0 || px + side > source.width() || py + side > source.height()) {
          continue;
        }
        source.readGray(new PixelRect(px, py, side, side), window);
        double sum = 0;
        for (float g : window) {
          sum += g;
        }
        System.arraycopy(window, side / 2 * side, pixels, count * side, side);
        u[count] = 2 * (i + 0.5) / n - 1;
        v[count] = 2 * (j + 0.5) / n - 1;
        grey[count++] = sum / window.length;
      }
    }
    return new LightSample(
        Arrays.copyOf(u, count),
        Arrays.copyOf(v, count),
        Arrays.copyOf(grey, count),
        Arrays.copyOf(pixels, count * side));
  }

  /**
   * Median grey of pixels spread over the die; a curve through the greys takes it along. 0.5 where
   * none lies in the photograph.
   */
  double median() {
    return median((atU, atV) -> 1);
  }

  /**
   * The same once light is evened.
   *
   * @param gain at a place of the upright raster given from -1 to 1 along each side
   */
  double median(DoubleBinaryOperator gain) {
    if (grey.length == 0) {
      return 0.5;
    }
    int each = pixels.length / grey.length;
    float[] lit = new float[pixels.length];
    for (int i = 0; i < lit.length; i++) {
      lit[i] = (float) (pixels[i] * gain.applyAsDouble(u[i / each], v[i / each]));
    }
    Arrays.sort(lit);
    return lit[lit.length / 2];
  }

  Illumination fit() {
    return Illumination.fit(u, v, grey);
  }
}
