package org.diesurvey.report.picture;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;

/**
 * What the texture of a square crop is like, along the die's axes.
 *
 * @param alongX autocorrelation along the rows at the lags 1, 2, ... px, in hundredths, -100 to 100
 * @param alongY the same along the columns
 * @param contrast standard deviation of grey over its mean; 0 where all is alike
 * @param flat share of squares of 8 x 8 px whose own standard deviation is under 2 % of the mean
 * @param unevenness coefficient of variation of the standard deviations of quarters of a quarter:
 *     small where the texture is the same everywhere
 */
public record CropTexture(
    List<Integer> alongX, List<Integer> alongY, double contrast, double flat, double unevenness) {
  /** Largest share of the side that is looked at as a lag: beyond it few pairs are left. */
  private static final double FARTHEST = 0.5;

  /** Standard deviation over the mean under which a square counts as flat. */
  private static final double FLAT = 0.02;

  private static final int SQUARE = 8;

  /** Rise of a peak over the deepest valley before it that makes it clear, in hundredths. */
  private static final int CLEAR_RISE = 12;

  /** Shortest period that the sampling shows dependably, px. */
  private static final int LEAST_PX = 3;

  /** Copies the lists. */
  public CropTexture {
    alongX = List.copyOf(alongX);
    alongY = List.copyOf(alongY);
  }

  /**
   * @param grey 0 to 1, row by row
   * @param side px
   */
  static CropTexture of(float[] grey, int side) {
    double mean = 0;
    for (float g : grey) {
      mean += g / (double) grey.length;
    }
    double[] rest = new double[grey.length];
    double squares = 0;
    for (int i = 0; i < grey.length; i++) {
      rest[i] = grey[i] - mean;
      squares += rest[i] * rest[i] / grey.length;
    }
    double least = Math.max(0.02, mean);
    return new CropTexture(
        curve(rest, side, squares, 1, side),
        curve(rest, side, squares, side, 1),
        Math.sqrt(squares) / least,
        flat(grey, side, FLAT * least),
        unevenness(grey, side));
  }

  /** Every second line is enough: neighbours say nearly the same. */
  private static List<Integer> curve(
      double[] rest, int side, double squares, int step, int lineStep) {
    List<Integer> out = new ArrayList<>();
    for (int lag = 1; lag <= FARTHEST * side; lag++) {
      double sum = 0;
      int n = 0;
      for (int line = 0; line < side; line += 2) {
        for (int i = 0, at = line * lineStep; i + lag < side; i++, at += step) {
          sum += rest[at] * rest[at + lag * step];
          n++;
        }
      }
      double r = squares == 0 ? 0 : sum / n / squares;
      out.add((int) Math.rint(100 * Math.max(-1, Math.min(1, r))));
    }
    return out;
  }

  private static double flat(float[] grey, int side, double limit) {
    int flat = 0;
    int n = 0;
    for (int y = 0; y + SQUARE <= side; y += SQUARE) {
      for (int x = 0; x + SQUARE <= side; x += SQUARE) {
        flat += deviation(grey, side, x, y, SQUARE) < limit ? 1 : 0;
        n++;
      }
    }
    return n == 0 ? 0 : (double) flat / n;
  }

  private static double unevenness(float[] grey, int side) {
    int part = side / 4;
    double sum = 0;
    double squares = 0;
    for (int i = 0; i < 16; i++) {
      double d = deviation(grey, side, i % 4 * part, i / 4 * part, part);
      sum += d;
      squares += d * d;
    }
    double mean = sum / 16;
    return mean == 0 ? 0 : Math.sqrt(Math.max(0, squares / 16 - mean * mean)) / mean;
  }

  private static double deviation(float[] grey, int side, int x0, int y0, int size) {
    double sum = 0;
    double squares = 0;
    for (int y = y0; y < y0 + size; y++) {
      for (int x = x0; x < x0 + size; x++) {
        double g = grey[y * side + x];
        sum += g;
        squares += g * g;
      }
    }
    double n = (double) size * size;
    return Math.sqrt(Math.max(0, squares / n - sum / n * (sum / n)));
  }

  /** Lag of the first clear peak of a curve, px. */
  public static OptionalInt period(List<Integer> curve) {
    int low = 100;
    for (int i = 1; i + 1 < curve.size(); i++) {
      int r = curve.get(i);
      low = Math.min(low, curve.get(i - 1));
      boolean peak = r > curve.get(i - 1) && r >= curve.get(i + 1);
      if (i + 1 >= LEAST_PX && peak && r - low >= CLEAR_RISE) {
        return OptionalInt.of(i + 1);
      }
    }
    return OptionalInt.empty();
  }

  /** How unlike two textures are, from 0: by shape of the curves, contrast and flat share. */
  double distance(CropTexture other) {
    return difference(alongX, other.alongX)
        + difference(alongY, other.alongY)
        + Math.abs(Math.log((contrast + 0.005) / (other.contrast + 0.005))) / 2
        + Math.abs(flat - other.flat);
  }

  private static double difference(List<Integer> a, List<Integer> b) {
    int n = Math.min(a.size(), b.size());
    double squares = 0;
    for (int i = 0; i < n; i++) {
      double d = (a.get(i) - b.get(i)) / 100.0;
      squares += d * d;
    }
    return n == 0 ? 0 : Math.sqrt(squares / n);
  }
}
