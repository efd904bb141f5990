package org.diesurvey.vision;

import org.opencv.core.Core;
import org.opencv.core.Mat;

/** Products of matrices of single precision. */
public final class MatrixProduct {
  private MatrixProduct() {}

  /**
   * The product of two matrices that lie row by row.
   *
   * @param left height x inner, at least so many values
   * @param right inner x width
   * @return height x width, row by row
   */
  public static float[] of(float[] left, int height, int inner, float[] right, int width) {
    try (MatScope scope = new MatScope()) {
      Mat product = scope.empty();
      Core.gemm(
          scope.floats(inner, height, left),
          scope.floats(width, inner, right),
          1,
          scope.empty(),
          0,
          product);
      float[] out = new float[height * width];
      product.get(0, 0, out);
      return out;
    }
  }
}
