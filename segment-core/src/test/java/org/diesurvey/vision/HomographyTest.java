package org.diesurvey.vision;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.raster.Homography;
import org.diesurvey.raster.PixelPoint;
import org.diesurvey.raster.PlaneTransform;
import org.junit.jupiter.api.Test;
import org.opencv.core.Mat;
import org.opencv.core.MatOfPoint2f;
import org.opencv.core.Point;
import org.opencv.imgproc.Imgproc;

/** The closed form against OpenCV's own solver, and the warp against the affine one. */
class HomographyTest {
  private static final List<PixelPoint> CORNERS =
      List.of(
          new PixelPoint(41.5, 20.25),
          new PixelPoint(2030, 55),
          new PixelPoint(2101, 1650.5),
          new PixelPoint(12, 1702));

  @Test
  void ofRectangle_agreesWithOpenCv() {
    Homography ours = Homography.ofRectangle(2000, 1600, CORNERS);
    try (MatScope scope = new MatScope()) {
      MatOfPoint2f from =
          scope.adopt(
              new MatOfPoint2f(
                  new Point(0, 0), new Point(2000, 0), new Point(2000, 1600), new Point(0, 1600)));
      Point[] to = CORNERS.stream().map(p -> new Point(p.x(), p.y())).toArray(Point[]::new);
      Mat m = scope.adopt(Imgproc.getPerspectiveTransform(from, scope.adopt(new MatOfPoint2f(to))));
      for (double[] p : new double[][] {{0, 0}, {713, 240}, {1999, 3}, {1000, 800}, {20, 1500}}) {
        double w = m.get(2, 0)[0] * p[0] + m.get(2, 1)[0] * p[1] + m.get(2, 2)[0];
        double x = (m.get(0, 0)[0] * p[0] + m.get(0, 1)[0] * p[1] + m.get(0, 2)[0]) / w;
        double y = (m.get(1, 0)[0] * p[0] + m.get(1, 1)[0] * p[1] + m.get(1, 2)[0]) / w;
        assertEquals(x, ours.x(p[0], p[1]), 1e-3);
        assertEquals(y, ours.y(p[0], p[1]), 1e-3);
      }
    }
  }

  @Test
  void stretches_areThoseOfSmallSteps() {
    Homography h = Homography.ofRectangle(1, 1, CORNERS);
    double e = 1e-6;
    double dx = h.x(0.5 + e, 0.5) - h.x(0.5 - e, 0.5);
    double dy = h.y(0.5 + e, 0.5) - h.y(0.5 - e, 0.5);
    assertEquals(Math.hypot(dx, dy) / (2 * e), h.stretchX(0.5, 0.5), 1e-3);
    dx = h.x(0.5, 0.5 + e) - h.x(0.5, 0.5 - e);
    dy = h.y(0.5, 0.5 + e) - h.y(0.5, 0.5 - e);
    assertEquals(Math.hypot(dx, dy) / (2 * e), h.stretchY(0.5, 0.5), 1e-3);
  }

  @Test
  void movedAndFollowedMaps_areThatMapThere() {
    Homography h = Homography.ofRectangle(2000, 1600, CORNERS);
    PlaneTransform next = new PlaneTransform(0.5, 0.1, -3, -0.2, 0.7, 11);
    Homography both = h.movedInput(100, 50).then(next);
    assertEquals(next.x(h.x(130, 90), h.y(130, 90)), both.x(30, 40), 1e-9);
    assertEquals(next.y(h.x(130, 90), h.y(130, 90)), both.y(30, 40), 1e-9);
  }

  @Test
  void threeCornersOnALine_areRefused() {
    List<PixelPoint> flat =
        List.of(
            new PixelPoint(0, 0), new PixelPoint(1, 0), new PixelPoint(2, 0), new PixelPoint(3, 0));
    assertThrows(IllegalArgumentException.class, () -> Homography.ofRectangle(1, 1, flat));
  }

  @Test
  void perspectiveWarp_ofAParallelogram_isTheAffineOne() {
    GrayRaster in = new GrayRaster(90, 80);
    for (int i = 0; i < in.array().length; i++) {
      in.array()[i] = (float) (0.5 + 0.4 * Math.sin(i % 90 / 5.0) * Math.cos(i / 90 / 7.0));
    }
    PlaneTransform affine = new PlaneTransform(0.98, -0.17, 14, 0.17, 0.98, 4);
    Homography same = new Homography(0.98, -0.17, 14, 0.17, 0.98, 4, 0, 0);
    GrayRaster a = ImageFilters.warp(in, affine, 60, 50);
    GrayRaster b = PerspectiveWarp.warp(in, same, 60, 50);
    for (int i = 0; i < a.array().length; i++) {
      assertEquals(a.array()[i], b.array()[i], 0.01);
    }
  }
}
