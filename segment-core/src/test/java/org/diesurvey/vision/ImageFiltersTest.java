package org.diesurvey.vision;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.SplittableRandom;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.raster.PlaneTransform;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

class ImageFiltersTest {
  private static GrayRaster random(int width, int height) {
    SplittableRandom random = new SplittableRandom(61);
    GrayRaster g = new GrayRaster(width, height);
    for (int i = 0; i < g.array().length; i++) {
      g.array()[i] = (float) random.nextDouble();
    }
    return g;
  }

  /** Steps and noise; against the same library's blur without the reduction. */
  @Test
  void wideGaussian_isTheGaussian_withinOnePercentOfTheRange() {
    GrayRaster g = random(301, 233);
    for (int y = 0; y < g.height(); y++) {
      for (int x = 150; x < g.width(); x++) {
        g.set(x, y, g.get(x, y) - 1);
      }
    }
    for (double sigma : new double[] {6.5, 14.5, 43}) {
      float[] exact = ImageFilters.gaussian(g, sigma).array();
      float[] wide = ImageFilters.wideGaussian(g, sigma).array();
      double most = 0;
      for (int i = 0; i < exact.length; i++) {
        most = Math.max(most, Math.abs(exact[i] - wide[i]));
      }
      assertTrue(most < 0.02, sigma + " px: " + most + " of a range of 2");
      assertTrue(most > 0, "it is worked out on a reduced picture");
    }
  }

  @Test
  void wideGaussian_ofANarrowOne_isExact() {
    GrayRaster g = random(64, 48);
    assertArrayEquals(
        ImageFilters.gaussian(g, 5.9).array(), ImageFilters.wideGaussian(g, 5.9).array());
  }

  /** An impulse becomes the sampled bell curve. */
  @Test
  void gaussianOfAnImpulse_isTheBellCurve() {
    GrayRaster g = new GrayRaster(41, 41);
    g.set(20, 20, 1);
    GrayRaster out = ImageFilters.gaussian(g, 2.5);
    for (int k = 0; k <= 6; k++) {
      double bell = Math.exp(-k * k / (2 * 2.5 * 2.5)) / (2 * Math.PI * 2.5 * 2.5);
      assertEquals(bell, out.get(20 + k, 20), 1e-4);
      assertEquals(bell, out.get(20, 20 - k), 1e-4);
    }
  }

  @Test
  void boxMean_isThePlainMean() {
    GrayRaster g = random(40, 30);
    GrayRaster out = ImageFilters.boxMean(g, 5);
    double sum = 0;
    for (int y = 8; y <= 12; y++) {
      for (int x = 18; x <= 22; x++) {
        sum += g.get(x, y);
      }
    }
    assertEquals(sum / 25, out.get(20, 10), 1e-6);
  }

  @Test
  void reduce_averagesWholeCells() {
    GrayRaster g = random(30, 18);
    GrayRaster out = ImageFilters.reduce(g, 10, 6);
    double sum = 0;
    for (int i = 0; i < 9; i++) {
      sum += g.get(12 + i % 3, 6 + i / 3);
    }
    assertEquals(sum / 9, out.get(4, 2), 1e-6);
  }

  /** A shift by whole pixels must not move anything by half a pixel. */
  @Test
  void warpByWholePixels_copies() {
    GrayRaster g = random(30, 20);
    GrayRaster out = ImageFilters.warp(g, new PlaneTransform(1, 0, 4, 0, 1, 3), 20, 12);
    for (int y = 0; y < 12; y++) {
      for (int x = 0; x < 20; x++) {
        assertEquals(g.get(x + 4, y + 3), out.get(x, y), 1e-5);
      }
    }
  }

  /**
   * A linear ramp is the same function of place before and after a turn; places are rounded to 1/32
   * px, half a pixel off would be 0.005.
   */
  @Test
  void warpedRamp_keepsItsValues() {
    GrayRaster g = new GrayRaster(80, 80);
    for (int i = 0; i < g.array().length; i++) {
      g.array()[i] = (float) (0.004 * (i % 80 + 0.5) + 0.006 * (i / 80 + 0.5));
    }
    double c = Math.cos(0.3);
    double s = Math.sin(0.3);
    PlaneTransform turn = new PlaneTransform(c, -s, 30, s, c, 20);
    GrayRaster out = ImageFilters.warp(g, turn, 30, 30);
    for (int y = 0; y < 30; y++) {
      for (int x = 0; x < 30; x++) {
        double place = 0.004 * turn.x(x + 0.5, y + 0.5) + 0.006 * turn.y(x + 0.5, y + 0.5);
        assertEquals(place, out.get(x, y), 6e-4);
      }
    }
  }

  @Test
  void components_areCountedAndBounded() {
    LabelRaster m = new LabelRaster(9, 6);
    m.set(1, 1, 1);
    m.set(2, 1, 1);
    m.set(3, 2, 1);
    m.set(7, 4, 1);
    Components.Labelling l = Components.label(m);
    assertEquals(3, l.components().size());
    assertEquals(2, l.components().get(0).cells());
    assertEquals(2, l.components().get(0).bounds().width());
    assertEquals(7, l.components().get(2).bounds().x());
    assertEquals(0, l.ids()[0]);
  }

  /**
   * Native pixels are invisible to the collector: 3,000 calls on rasters of 256 KiB would keep 1.5
   * GB if they were not given back. As many calls before bring the heap to its steady size.
   */
  @Tag("slow")
  @Test
  void thousandsOfCalls_keepNativeMemoryLevel() throws IOException {
    assumeTrue(
        Files.exists(Path.of("/proc/self/status")),
        "skipped: resident memory is read from /proc, which this system does not have");
    GrayRaster g = random(256, 256);
    for (int i = 0; i < 3000; i++) {
      ImageFilters.boxMean(g, 3);
    }
    System.gc();
    long before = residentKib();
    for (int i = 0; i < 3000; i++) {
      ImageFilters.boxMean(g, 3);
    }
    System.gc();
    long grown = (residentKib() - before) / 1024;
    assertTrue(grown < 150, "resident memory grew by " + grown + " MiB");
  }

  private static long residentKib() throws IOException {
    return Files.readAllLines(Path.of("/proc/self/status")).stream()
        .filter(l -> l.startsWith("VmRSS:"))
        .mapToLong(l -> Long.parseLong(l.replaceAll("[^0-9]", "")))
        .findFirst()
        .orElseThrow();
  }
}
