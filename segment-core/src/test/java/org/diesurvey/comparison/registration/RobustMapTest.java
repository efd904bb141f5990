package org.diesurvey.comparison.registration;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.raster.PlaneTransform;
import org.diesurvey.vision.CrossCorrelation;
import org.diesurvey.vision.ImageFilters;
import org.diesurvey.vision.NativeLibrary;
import org.junit.jupiter.api.Test;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.Point;
import org.opencv.imgproc.Imgproc;

class RobustMapTest {
  private static GrayRaster texture(int side, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    float[] v = new float[side * side];
    for (int i = 0; i < v.length; i++) {
      v[i] = (float) random.nextDouble();
    }
    return ImageFilters.gaussian(GrayRaster.over(side, side, v), 1.5);
  }

  @Test
  void halfOfTheMatchesWrong_stillGivesTheMap() {
    PlaneTransform truth = new PlaneTransform(1.004, 0.002, 3, -0.002, 1.0035, -2);
    SplittableRandom random = new SplittableRandom(5);
    List<PatchMatch> all = new ArrayList<>();
    for (int i = 0; i < 200; i++) {
      double x = 1000 * random.nextDouble();
      double y = 1000 * random.nextDouble();
      boolean wrong = i % 2 == 0;
      double dx = wrong ? 20 * random.nextDouble() - 10 : truth.x(x, y) - x;
      double dy = wrong ? 20 * random.nextDouble() - 10 : truth.y(x, y) - y;
      all.add(new PatchMatch(x, y, dx, dy, 0.9, 0.5));
    }
    RobustMap fit = RobustMap.fit(all, 1.5);
    assertTrue(fit.agreeing().size() >= 100, "agreeing: " + fit.agreeing().size());
    assertEquals(truth.x(500, 500), fit.map().x(500, 500), 0.3);
    assertEquals(truth.y(500, 500), fit.map().y(500, 500), 0.3);
  }

  /** Outside check: OpenCV's phase correlation of the same two pictures. */
  @Test
  void shift_agreesWithPhaseCorrelationOfOpenCv() {
    GrayRaster a = texture(192, 3);
    GrayRaster b = ImageFilters.warp(a, new PlaneTransform(1, 0, -2.4, 0, 1, 1.3), 192, 192);
    PatchMatch m = PatchMatcher.at(a, b, 96, 96, 64, 8, 0);
    assertEquals(2.4, m.dx(), 0.1);
    assertEquals(-1.3, m.dy(), 0.1);
    NativeLibrary.loadAhead();
    Mat first = new Mat(192, 192, CvType.CV_32FC1);
    first.put(0, 0, a.array());
    Mat second = new Mat(192, 192, CvType.CV_32FC1);
    second.put(0, 0, b.array());
    Mat window = new Mat();
    Imgproc.createHanningWindow(window, first.size(), CvType.CV_32F);
    Point outside = Imgproc.phaseCorrelate(first, second, window);
    assertEquals(outside.x, m.dx(), 0.25);
    assertEquals(outside.y, m.dy(), 0.25);
  }

  @Test
  void sumsOfProducts_areThoseOfTheDefinition() {
    GrayRaster a = texture(9, 1);
    GrayRaster b = texture(5, 2);
    GrayRaster sums = CrossCorrelation.sums(a, b);
    assertEquals(13, sums.width());
    for (int dy = -4; dy < 9; dy++) {
      for (int dx = -4; dx < 9; dx++) {
        double sum = 0;
        for (int y = 0; y < 5; y++) {
          for (int x = 0; x < 5; x++) {
            boolean in = x + dx >= 0 && y + dy >= 0 && x + dx < 9 && y + dy < 9;
            sum += in ? a.get(x + dx, y + dy) * b.get(x, y) : 0;
          }
        }
        assertEquals(sum, sums.get(dx + 4, dy + 4), 1e-4);
      }
    }
  }
}
