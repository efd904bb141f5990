package org.diesurvey.vision;

import java.lang.ref.Reference;
import java.util.ArrayDeque;
import java.util.Deque;
import org.diesurvey.Cancellation;
import org.opencv.core.CvType;
import org.opencv.core.Mat;

/**
 * Owner of native matrices for the length of one operation, on one thread. Every matrix is made or
 * adopted here and released in reverse order on close, because the garbage collector does not see
 * native pixels.
 */
final class MatScope implements AutoCloseable {
  private final Deque<Mat> owned = new ArrayDeque<>();

  /** Also where long work on pictures notices that it was cancelled. */
  MatScope() {
    Cancellation.check();
    NativeLibrary.ensureLoaded();
  }

  /** An empty matrix for an operation's result. */
  Mat empty() {
    return adopt(new Mat());
  }

  /** A one-channel float matrix holding a copy of the row-major values. */
  Mat floats(int width, int height, float[] values) {
    Mat m = adopt(new Mat(height, width, CvType.CV_32FC1));
    m.put(0, 0, values);
    return m;
  }

  /** A one-channel byte matrix holding a copy of the row-major codes. */
  Mat bytes(int width, int height, byte[] codes) {
    Mat m = adopt(new Mat(height, width, CvType.CV_8UC1));
    m.put(0, 0, codes);
    return m;
  }

  /** Takes over a matrix that an operation returned. */
  <T extends Mat> T adopt(T m) {
    owned.push(m);
    return m;
  }

  @Override
  public void close() {
    while (!owned.isEmpty()) {
      Mat m = owned.pop();
      m.release();
      // Else the finaliser could free a matrix that nothing refers to while it is being released.
      Reference.reachabilityFence(m);
    }
  }
}
