package org.diesurvey.vision;

import java.nio.file.Path;
import org.opencv.core.Mat;
import org.opencv.imgcodecs.Imgcodecs;
import org.opencv.imgproc.Imgproc;

/**
 * What a photograph costs at least: its decoding by the native library and a pyramid of five
 * levels. For benchmarks of photographs of one's own; surveys read files with readers that hold
 * limits.
 */
public final class DecodeYardstick {
  private static final int LEVELS = 5;

  private DecodeYardstick() {}

  /**
   * Seconds of the fastest of several runs.
   *
   * @param photo a file that the native library reads
   * @param runs 1 or more
   * @throws IllegalArgumentException if it does not read the file
   */
  public static double seconds(Path photo, int runs) {
    double best = Double.MAX_VALUE;
    for (int i = 0; i < runs; i++) {
      long start = System.nanoTime();
      try (MatScope scope = new MatScope()) {
        Mat level = scope.adopt(Imgcodecs.imread(photo.toString(), Imgcodecs.IMREAD_COLOR));
        if (level.empty()) {
          throw new IllegalArgumentException("not read by the native library: " + photo);
        }
        for (int k = 0; k < LEVELS; k++) {
          Mat half = scope.empty();
          Imgproc.pyrDown(level, half);
          level = half;
        }
      }
      best = Math.min(best, (System.nanoTime() - start) / 1e9);
    }
    return best;
  }
}
