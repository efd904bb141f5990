package org.diesurvey.vision;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.opencv.core.CvType;
import org.opencv.core.Mat;

class MatScopeTest {
  /** The collector would free native pixels at last, but far too late: see the slow test. */
  @Test
  void endOfScope_givesAllPixelsBack() {
    Mat floats;
    Mat bytes;
    Mat adopted;
    try (MatScope scope = new MatScope()) {
      floats = scope.floats(3, 2, new float[] {1, 2, 3, 4, 5, 6});
      bytes = scope.bytes(2, 2, new byte[] {1, 2, 3, 4});
      adopted = scope.adopt(new Mat(5, 5, CvType.CV_8UC1));
      assertEquals(6, floats.get(1, 2)[0]);
      assertEquals(3, bytes.get(1, 0)[0]);
      assertFalse(adopted.empty());
    }
    assertTrue(floats.empty() && bytes.empty() && adopted.empty());
  }
}
