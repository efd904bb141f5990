package org.diesurvey.vision;

import org.diesurvey.raster.LabelRaster;
import org.opencv.core.Mat;
import org.opencv.core.Size;
import org.opencv.imgproc.Imgproc;

/**
 * Erosion, dilation, opening and closing of masks (0 and 1) with a square of side 2 radius + 1; a
 * radius of 0 changes nothing. Beyond the raster nothing is set and nothing is lost.
 */
public final class Morphology {
  private Morphology() {}

  /** What is set within the radius of a set cell. */
  public static LabelRaster dilate(LabelRaster mask, int radius) {
    return morphed(mask, radius, Imgproc.MORPH_DILATE);
  }

  /** Cells around which all is set within the radius. */
  public static LabelRaster erode(LabelRaster mask, int radius) {
    return morphed(mask, radius, Imgproc.MORPH_ERODE);
  }

  /** Erosion, then dilation: what is narrower than the square goes. */
  public static LabelRaster open(LabelRaster mask, int radius) {
    return morphed(mask, radius, Imgproc.MORPH_OPEN);
  }

  /** Dilation, then erosion: gaps narrower than the square are filled. */
  public static LabelRaster close(LabelRaster mask, int radius) {
    return morphed(mask, radius, Imgproc.MORPH_CLOSE);
  }

  private static LabelRaster morphed(LabelRaster mask, int radius, int operation) {
    if (radius < 0) {
      throw new IllegalArgumentException("radius must be 0 or more, was " + radius);
    }
    if (radius == 0) {
      return mask;
    }
    try (MatScope scope = new MatScope()) {
      Mat src = scope.bytes(mask.width(), mask.height(), mask.array());
      Mat dst = scope.empty();
      int side = 2 * radius + 1;
      Mat kernel =
          scope.adopt(Imgproc.getStructuringElement(Imgproc.MORPH_RECT, new Size(side, side)));
      Imgproc.morphologyEx(src, dst, operation, kernel);
      byte[] out = new byte[mask.width() * mask.height()];
      dst.get(0, 0, out);
      return LabelRaster.over(mask.width(), mask.height(), out);
    }
  }
}
