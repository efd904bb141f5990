package org.diesurvey.vision;

import org.diesurvey.raster.GrayRaster;
import org.opencv.core.Core;
import org.opencv.core.Mat;
import org.opencv.imgproc.Imgproc;

/** Where one picture lies in another. */
public final class CrossCorrelation {
  private CrossCorrelation() {}

  /**
   * Sums of products at all shifts at which the two pictures touch, by Fourier transforms.
   *
   * @param a first picture
   * @param b second picture
   * @return (a.width + b.width - 1) x (a.height + b.height - 1); column dx + b.width - 1, row dy +
   *     b.height - 1 holds the sum over x, y of a(x + dx, y + dy) b(x, y)
   */
  public static GrayRaster sums(GrayRaster a, GrayRaster b) {
    int outW = a.width() + b.width() - 1;
    int outH = a.height() + b.height() - 1;
    NativeLibrary.ensureLoaded();
    int w = Core.getOptimalDFTSize(outW);
    int h = Core.getOptimalDFTSize(outH);
    try (MatScope scope = new MatScope()) {
      Mat fa = spectrum(scope, a, w, h);
      // Shifted by its own size less one, so that no shift is negative.
      Mat fb = spectrum(scope, turned(b), w, h);
      Mat product = scope.empty();
      Core.mulSpectrums(fa, fb, product, 0, false);
      Mat sums = scope.empty();
      Core.dft(product, sums, Core.DFT_INVERSE | Core.DFT_SCALE | Core.DFT_REAL_OUTPUT);
      Mat part = scope.adopt(sums.submat(0, outH, 0, outW));
      Mat whole = scope.adopt(part.clone());
      float[] values = new float[outW * outH];
      whole.get(0, 0, values);
      return GrayRaster.over(outW, outH, values);
    }
  }

  /** Turned by half a turn: convolution with it is correlation. */
  private static GrayRaster turned(GrayRaster in) {
    float[] from = in.array();
    float[] to = new float[from.length];
    for (int i = 0; i < from.length; i++) {
      to[i] = from[from.length - 1 - i];
    }
    return GrayRaster.over(in.width(), in.height(), to);
  }

  private static Mat spectrum(MatScope scope, GrayRaster in, int w, int h) {
    Mat src = scope.floats(in.width(), in.height(), in.array());
    Mat padded = scope.empty();
    Core.copyMakeBorder(src, padded, 0, h - in.height(), 0, w - in.width(), Core.BORDER_CONSTANT);
    Mat out = scope.empty();
    Core.dft(padded, out, 0, in.height());
    return out;
  }

  /**
   * Correlation coefficients of a small picture with a larger one at every place where it fits.
   *
   * @param where the larger picture
   * @param what the smaller one
   * @return (where.width - what.width + 1) x (where.height - what.height + 1), -1 to 1
   */
  public static GrayRaster coefficients(GrayRaster where, GrayRaster what) {
    try (MatScope scope = new MatScope()) {
      Mat image = scope.floats(where.width(), where.height(), where.array());
      Mat template = scope.floats(what.width(), what.height(), what.array());
      Mat out = scope.empty();
      Imgproc.matchTemplate(image, template, out, Imgproc.TM_CCOEFF_NORMED);
      float[] values = new float[out.rows() * out.cols()];
      out.get(0, 0, values);
      return GrayRaster.over(out.cols(), out.rows(), values);
    }
  }
}
