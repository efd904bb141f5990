package org.diesurvey.vision;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.SplittableRandom;
import org.apache.commons.math3.linear.MatrixUtils;
import org.apache.commons.math3.linear.RealMatrix;
import org.junit.jupiter.api.Test;

class MatrixProductTest {
  /** Against the products of Commons Math, in double precision. */
  @Test
  void product_isThatOfTheReferenceLibrary() {
    SplittableRandom random = new SplittableRandom(8);
    for (int[] shape : new int[][] {{1, 1, 1}, {3, 5, 2}, {170, 250, 96}, {1, 89, 96}}) {
      float[] left = values(random, shape[0] * shape[1]);
      float[] right = values(random, shape[1] * shape[2]);
      float[] found = MatrixProduct.of(left, shape[0], shape[1], right, shape[2]);
      RealMatrix wanted =
          matrix(left, shape[0], shape[1]).multiply(matrix(right, shape[1], shape[2]));
      for (int r = 0; r < shape[0]; r++) {
        for (int c = 0; c < shape[2]; c++) {
          assertEquals(wanted.getEntry(r, c), found[r * shape[2] + c], 1e-4);
        }
      }
    }
  }

  private static float[] values(SplittableRandom random, int count) {
    float[] out = new float[count];
    for (int i = 0; i < count; i++) {
      out[i] = (float) random.nextGaussian();
    }
    return out;
  }

  private static RealMatrix matrix(float[] values, int rows, int columns) {
    RealMatrix m = MatrixUtils.createRealMatrix(rows, columns);
    for (int i = 0; i < values.length; i++) {
      m.setEntry(i / columns, i % columns, values[i]);
    }
    return m;
  }
}
