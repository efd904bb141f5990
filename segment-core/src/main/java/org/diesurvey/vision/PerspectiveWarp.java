package org.diesurvey.vision;

import org.diesurvey.raster.GrayRaster;
import org.diesurvey.raster.Homography;
import org.diesurvey.raster.PlaneTransform;
import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.Scalar;
import org.opencv.core.Size;
import org.opencv.imgproc.Imgproc;

/** Resampling through a perspective map: turn, tilt and shift in one interpolation. */
public final class PerspectiveWarp {
  private PerspectiveWarp() {}

  /**
   * Bicubic resampling; places outside the input take the nearest edge value.
   *
   * @param fromTarget maps a place in the result to a place in the input, both with pixel centres
   *     at +0.5
   * @param width columns of the result
   * @param height rows of the result
   */
  public static GrayRaster warp(GrayRaster in, Homography fromTarget, int width, int height) {
    try (MatScope scope = new MatScope()) {
      Mat src = scope.floats(in.width(), in.height(), in.array());
      Mat dst = scope.empty();
      Mat m = scope.adopt(new Mat(3, 3, CvType.CV_64FC1));
      // OpenCV counts from pixel centres, we count from pixel corners.
      Homography h =
          fromTarget.movedInput(0.5, 0.5).then(new PlaneTransform(1, 0, -0.5, 0, 1, -0.5));
      m.put(0, 0, h.a(), h.b(), h.c(), h.d(), h.e(), h.f(), h.g(), h.h(), 1);
      Imgproc.warpPerspective(
          src,
          dst,
          m,
          new Size(width, height),
          Imgproc.INTER_CUBIC | Imgproc.WARP_INVERSE_MAP,
          Core.BORDER_REPLICATE,
          new Scalar(0));
      float[] values = new float[width * height];
      dst.get(0, 0, values);
      return GrayRaster.over(width, height, values);
    }
  }
}
