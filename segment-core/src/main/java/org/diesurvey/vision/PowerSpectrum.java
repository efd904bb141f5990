package org.diesurvey.vision;

import org.diesurvey.raster.GrayRaster;
import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.Size;
import org.opencv.imgproc.Imgproc;

/** Power over spatial frequency of a square window. */
public final class PowerSpectrum {
  private PowerSpectrum() {}

  /**
   * Power in rings of equal width around frequency 0. The mean is taken out and the window is
   * tapered by a Hann window, so that its borders make no power. Scaled so that white noise of
   * variance v has the power v in every ring.
   *
   * @param in square window, side a power of two for speed
   * @return side/2 mean powers; ring i holds the frequencies from i/side to (i+1)/side cycles per
   *     px; the corners beyond half a cycle per px are left out
   */
  public static double[] radial(GrayRaster in) {
    int side = in.width();
    if (in.height() != side) {
      throw new IllegalArgumentException(
          "window must be square, was " + side + " x " + in.height() + " px");
    }
    float[] real = new float[side * side];
    float[] imaginary = new float[side * side];
    double energy;
    try (MatScope scope = new MatScope()) {
      Mat src = scope.floats(side, side, in.array());
      Core.subtract(src, Core.mean(src), src);
      Mat taper = scope.empty();
      Imgproc.createHanningWindow(taper, new Size(side, side), CvType.CV_32F);
      Core.multiply(src, taper, src);
      energy = Core.norm(taper, Core.NORM_L2SQR);
      Mat spectrum = scope.empty();
      Core.dft(src, spectrum, Core.DFT_COMPLEX_OUTPUT);
      java.util.List<Mat> planes = new java.util.ArrayList<>();
      Core.split(spectrum, planes);
      planes.forEach(scope::adopt);
      planes.get(0).get(0, 0, real);
      planes.get(1).get(0, 0, imaginary);
    }
    double[] power = new double[side / 2];
    int[] count = new int[side / 2];
    for (int y = 0; y < side; y++) {
      int v = y <= side / 2 ? y : y - side;
      for (int x = 0; x <= side / 2; x++) {
        int ring = (int) Math.sqrt((double) x * x + (double) v * v);
        if (ring < power.length) {
          int i = y * side + x;
          power[ring] += (double) real[i] * real[i] + (double) imaginary[i] * imaginary[i];
          count[ring]++;
        }
      }
    }
    for (int i = 0; i < power.length; i++) {
      power[i] /= energy * Math.max(1, count[i]);
    }
    return power;
  }
}
