package org.diesurvey.preparation;

import java.io.IOException;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.EigenDecomposition;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.raster.PixelPoint;
import org.diesurvey.raster.PixelRect;

/**
 * How colours become grey. Luma (ITU-R BT.601) serves nearly every die, since the layers differ in
 * brightness. Where they differ in hue only, as thin oxides do, luma is flat; then the first
 * principal component of the layout's own colours (Pearson 1901, from memory) is taken.
 *
 * @param red weight of red; the absolute weights sum to 1
 * @param green weight of green
 * @param blue weight of blue
 * @param offset added, so that the mean grey stays that of luma
 * @param gain contrast of the layout over that of luma
 */
public record GreyProjection(double red, double green, double blue, double offset, double gain) {
  /** ITU-R BT.601. */
  private static final double[] LUMA = {0.299, 0.587, 0.114};

  /** Least gain of contrast for which luma is given up: below it texture is the same in both. */
  private static final double LEAST_GAIN = 1.6;

  /** Windows looked at along each direction of the die, and their side, px. */
  private static final int WINDOWS = 6;

  private static final int SIDE = 96;

  /** Side of the cells whose means are compared within a window, px. */
  private static final int CELL = 4;

  /**
   * The projection to use instead of luma.
   *
   * @return empty if luma serves, as on every grey photograph
   */
  public static Optional<GreyProjection> of(PixelSource source, DieLocation frame) {
    double[][] layout = new double[3][3];
    double[] mean = new double[3];
    int windows = 0;
    int[] rgb = new int[SIDE * SIDE];
    for (int i = 0; i < WINDOWS; i++) {
      for (int j = 0; j < WINDOWS; j++) {
        PixelPoint p = inside(frame.corners(), (i + 0.5) / WINDOWS, (j + 0.5) / WINDOWS);
        int x = (int) Math.round(p.x()) - SIDE / 2;
        int y = (int) Math.round(p.y()) - SIDE / 2;
        if (x >= 0 && y >= 0 && x + SIDE <= source.width() && y + SIDE <= source.height()) {
          source.readRgb(new PixelRect(x, y, SIDE, SIDE), rgb);
          add(rgb, layout, mean);
          windows++;
        }
      }
    }
    if (windows == 0) {
      return Optional.empty();
    }
    for (int k = 0; k < 3; k++) {
      mean[k] /= windows;
    }
    return chosen(layout, mean);
  }

  private static Optional<GreyProjection> chosen(double[][] layout, double[] mean) {
    double luma = variance(layout, LUMA);
    EigenDecomposition e = new EigenDecomposition(new Array2DRowRealMatrix(layout));
    double[] w = e.getEigenvector(0).toArray();
    double sum = Math.abs(w[0]) + Math.abs(w[1]) + Math.abs(w[2]);
    double sign = 0;
    for (int k = 0; k < 3; k++) {
      for (int l = 0; l < 3; l++) {
        sign += w[k] * layout[k][l] * LUMA[l];
      }
    }
    double scale = (sign < 0 ? -1 : 1) / sum;
    double offset = 0;
    for (int k = 0; k < 3; k++) {
      w[k] *= scale;
      offset += (LUMA[k] - w[k]) * mean[k];
    }
    double gain = Math.sqrt(variance(layout, w) / Math.max(1e-12, luma));
    return gain >= LEAST_GAIN
        ? Optional.of(new GreyProjection(w[0], w[1], w[2], offset, gain))
        : Optional.empty();
  }

  private static double variance(double[][] m, double[] w) {
    double sum = 0;
    for (int k = 0; k < 3; k++) {
      for (int l = 0; l < 3; l++) {
        sum += w[k] * m[k][l] * w[l];
      }
    }
    return sum;
  }

  /** Adds the covariance of the cell means of a window, and its mean colour, 0 to 1. */
  private static void add(int[] rgb, double[][] layout, double[] mean) {
    int n = SIDE / CELL;
    double[][] cells = new double[3][n * n];
    for (int y = 0; y < SIDE; y++) {
      for (int x = 0; x < SIDE; x++) {
        int c = rgb[y * SIDE + x];
        int at = y / CELL * n + x / CELL;
        cells[0][at] += (c >> 16 & 0xff) / (255.0 * CELL * CELL);
        cells[1][at] += (c >> 8 & 0xff) / (255.0 * CELL * CELL);
        cells[2][at] += (c & 0xff) / (255.0 * CELL * CELL);
      }
    }
    double[] m = new double[3];
    for (int k = 0; k < 3; k++) {
      for (double v : cells[k]) {
        m[k] += v / cells[k].length;
      }
      mean[k] += m[k];
    }
    for (int k = 0; k < 3; k++) {
      for (int l = 0; l < 3; l++) {
        for (int i = 0; i < n * n; i++) {
          layout[k][l] += (cells[k][i] - m[k]) * (cells[l][i] - m[l]);
        }
      }
    }
  }

  private static PixelPoint inside(List<PixelPoint> corners, double u, double v) {
    double x = 0;
    double y = 0;
    double[] weights = {(1 - u) * (1 - v), u * (1 - v), u * v, (1 - u) * v};
    for (int i = 0; i < 4; i++) {
      x += weights[i] * corners.get(i).x();
      y += weights[i] * corners.get(i).y();
    }
    return new PixelPoint(x, y);
  }

  /** The photograph with this projection as its grey. Closing it closes the photograph. */
  public PixelSource applied(PixelSource photo) {
    return new Projected(photo, this);
  }

  /** What was done, for the survey. */
  public PreparationStep step() {
    return PreparationStep.of(
            PreparationStep.Kind.GREY_FROM_HUE,
            String.format(
                Locale.ROOT,
                "Grey was formed from hue (red %+.2f, green %+.2f, blue %+.2f): the layout has %.1f"
                    + " times the contrast that brightness alone shows.",
                red,
                green,
                blue,
                gain))
        .with("red", red)
        .with("green", green)
        .with("blue", blue)
        .with("contrast_gain", gain);
  }

  /** A photograph whose grey is another mixture of its colours. */
  private record Projected(PixelSource photo, GreyProjection as) implements PixelSource {
    @Override
    public int width() {
      return photo.width();
    }

    @Override
    public int height() {
      return photo.height();
    }

    @Override
    public void readGray(PixelRect window, float[] target) {
      int[] rgb = new int[window.width() * window.height()];
      photo.readRgb(window, rgb);
      for (int i = 0; i < rgb.length; i++) {
        int c = rgb[i];
        double grey =
            as.offset
                + (as.red * (c >> 16 & 0xff) + as.green * (c >> 8 & 0xff) + as.blue * (c & 0xff))
                    / 255;
        target[i] = (float) Math.max(0, grey);
      }
    }

    @Override
    public void readRgb(PixelRect window, int[] target) {
      photo.readRgb(window, target);
    }

    @Override
    public void close() throws IOException {
      photo.close();
    }
  }
}
