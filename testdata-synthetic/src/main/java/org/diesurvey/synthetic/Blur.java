package org.diesurvey.synthetic;

/** Separable Gaussian blur, kernel cut at three standard deviations, edge pixels repeated. */
final class Blur {
  private Blur() {}

  static float[] kernel(double sigmaPx) {
    int reach = Math.max(1, (int) StrictMath.ceil(3 * sigmaPx));
    float[] kernel = new float[reach + 1];
    double sum = 0;
    double[] raw = new double[reach + 1];
    for (int i = 0; i <= reach; i++) {
      raw[i] = StrictMath.exp(-0.5 * i * i / (sigmaPx * sigmaPx));
      sum += i == 0 ? raw[i] : 2 * raw[i];
    }
    for (int i = 0; i <= reach; i++) {
      kernel[i] = (float) (raw[i] / sum);
    }
    return kernel;
  }

  /** Blurs in place; {@code scratch} is as long as the plane. Below 0.2 px nothing is done. */
  static void gaussian(float[] plane, float[] scratch, int width, int height, double sigmaPx) {
    if (sigmaPx < 0.2) {
      return;
    }
    float[] kernel = kernel(sigmaPx);
    int reach = kernel.length - 1;
    for (int y = 0; y < height; y++) {
      horizontal(plane, scratch, y * width, width, kernel, reach);
    }
    for (int y = 0; y < height; y++) {
      int at = y * width;
      float k0 = kernel[0];
      for (int x = 0; x < width; x++) {
        plane[at + x] = scratch[at + x] * k0;
      }
      for (int r = 1; r <= reach; r++) {
        int above = Math.max(0, y - r) * width;
        int below = Math.min(height - 1, y + r) * width;
        float k = kernel[r];
        for (int x = 0; x < width; x++) {
          plane[at + x] += (scratch[above + x] + scratch[below + x]) * k;
        }
      }
    }
  }

  private static void horizontal(
      float[] in, float[] out, int at, int width, float[] kernel, int reach) {
    int x = 0;
    for (; x < width; x++) {
      if (x == reach && width > 2 * reach) {
        x = inner(in, out, at, width, kernel, reach);
      }
      float sum = in[at + x] * kernel[0];
      for (int r = 1; r <= reach; r++) {
        sum += (in[at + Math.max(0, x - r)] + in[at + Math.min(width - 1, x + r)]) * kernel[r];
      }
      out[at + x] = sum;
    }
  }

  /** The part where no index leaves the row; returns the first column not done. */
  private static int inner(float[] in, float[] out, int at, int width, float[] kernel, int reach) {
    int from = at + reach;
    int to = at + width - reach;
    for (int i = from; i < to; i++) {
      out[i] = in[i] * kernel[0];
    }
    for (int r = 1; r <= reach; r++) {
      float k = kernel[r];
      for (int i = from; i < to; i++) {
        out[i] += (in[i - r] + in[i + r]) * k;
      }
    }
    return width - reach;
  }
}
