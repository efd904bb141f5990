package org.diesurvey.vision;

import org.diesurvey.raster.GrayRaster;
import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.MatOfDouble;
import org.opencv.core.Size;
import org.opencv.imgproc.Imgproc;

/** Operators for judging sharpness and noise; heap in, heap out. Borders are mirrored. */
public final class Sharpness {
  private Sharpness() {}

  /**
   * Magnitude of the gradient after a Gaussian blur, grey per px: central differences over 2 px.
   *
   * @param sigmaPx standard deviation of the blur, px, above 0
   */
  public static GrayRaster gradient(GrayRaster in, double sigmaPx) {
    try (MatScope scope = new MatScope()) {
      Mat src = scope.floats(in.width(), in.height(), in.array());
      Mat soft = scope.empty();
      Imgproc.GaussianBlur(src, soft, new Size(0, 0), sigmaPx, sigmaPx, Core.BORDER_REFLECT_101);
      Mat dx = scope.empty();
      Mat dy = scope.empty();
      Imgproc.Sobel(soft, dx, CvType.CV_32F, 1, 0, 1, 0.5, 0, Core.BORDER_REFLECT_101);
      Imgproc.Sobel(soft, dy, CvType.CV_32F, 0, 1, 1, 0.5, 0, Core.BORDER_REFLECT_101);
      Mat magnitude = scope.empty();
      Core.magnitude(dx, dy, magnitude);
      float[] values = new float[in.width() * in.height()];
      magnitude.get(0, 0, values);
      return GrayRaster.over(in.width(), in.height(), values);
    }
  }

  /**
   * Variance of the 4-neighbour Laplacian, a common focus measure (LAPV in Pertuz, Puig and Garcia,
   * Pattern Recognition 46 (2013) 1415; from memory). It grows with contrast and noise as well as
   * with sharpness, so only pictures of one scene can be compared by it.
   */
  public static double laplacianVariance(GrayRaster in) {
    try (MatScope scope = new MatScope()) {
      Mat src = scope.floats(in.width(), in.height(), in.array());
      Mat response = scope.empty();
      Imgproc.Laplacian(src, response, CvType.CV_32F, 1, 1, 0, Core.BORDER_REFLECT_101);
      MatOfDouble mean = scope.adopt(new MatOfDouble());
      MatOfDouble deviation = scope.adopt(new MatOfDouble());
      Core.meanStdDev(response, mean, deviation);
      double s = deviation.get(0, 0)[0];
      return s * s;
    }
  }
}
