package org.diesurvey.interchange.layout;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.operation.buffer.BufferOp;
import org.locationtech.jts.operation.buffer.BufferParameters;

/** Outlines of paths against the buffers of JTS. */
class LayoutPathTest {
  private static final GeometryFactory FACTORY = new GeometryFactory();

  /** Bends to both sides by up to 120 degrees, and a corner given twice. */
  private static final double[] XS = {0, 20, 20, 31, 60, 60, 45};

  private static final double[] YS = {0, 0, 0, 14, 20, 50, 35};

  private static Geometry outline(LayoutPath p) {
    Coordinate[] ring = new Coordinate[p.xs().length + 1];
    for (int i = 0; i < ring.length; i++) {
      int k = i % p.xs().length;
      ring[i] = new Coordinate(p.xs()[k], p.ys()[k]);
    }
    return FACTORY.createPolygon(ring);
  }

  private static Geometry buffer(double[] xs, double[] ys, double half, int cap, double mitre) {
    Coordinate[] line = new Coordinate[xs.length];
    for (int i = 0; i < line.length; i++) {
      line[i] = new Coordinate(xs[i], ys[i]);
    }
    return BufferOp.bufferOp(
        FACTORY.createLineString(line),
        half,
        new BufferParameters(8, cap, BufferParameters.JOIN_MITRE, mitre));
  }

  @ParameterizedTest
  @CsvSource({"0, 2", "1, 1", "2, 3"})
  void path_isTheBufferOfItsLine(int ends, int cap) {
    int six = XS.length - 1;
    double[] xs = java.util.Arrays.copyOf(XS, six);
    double[] ys = java.util.Arrays.copyOf(YS, six);
    Geometry own = outline(LayoutPath.of(xs, ys, 1.5, ends, 0, 0));
    Geometry other = buffer(xs, ys, 1.5, cap, 5);
    // Circles of 16 corners a half turn in both.
    assertEquals(0, own.symDifference(other).getArea(), 1e-6);
  }

  /** A turn of 135 degrees would reach far beyond its corner; its mitre is cut straight across. */
  @Test
  void sharpBend_isCutAcross() {
    double[] xs = {0, 30, 12};
    double[] ys = {0, 0, 18};
    LayoutPath p = LayoutPath.of(xs, ys, 2, 0, 0, 0);
    assertEquals(8, p.xs().length, "two corners at each end and four about the bend");
    double h = Math.sqrt(2);
    double[][] about = {{30, 2}, {30 - h, -h}, {30 + h, h}, {30, -2}};
    for (double[] c : about) {
      double nearest = 100;
      for (int i = 0; i < p.xs().length; i++) {
        nearest = Math.min(nearest, Math.hypot(p.xs()[i] - c[0], p.ys()[i] - c[1]));
      }
      assertEquals(0, nearest, 1e-9);
    }
  }

  @Test
  void statedEnds_lengthenEachEndByItsOwn() {
    double[] xs = {0, 10};
    double[] ys = {0, 0};
    Geometry own = outline(LayoutPath.of(xs, ys, 1, 4, 3, -2));
    Geometry expected = buffer(new double[] {-3, 8}, ys, 1, 2, 5);
    assertEquals(0, own.symDifference(expected).getArea(), 1e-9);
  }

  /** A path of one point is a square with square ends, and nothing with others. */
  @Test
  void pathOfOnePoint() {
    double[] xs = {7, 7};
    double[] ys = {3, 3};
    Geometry own = outline(LayoutPath.of(xs, ys, 2, 2, 0, 0));
    assertEquals(new org.locationtech.jts.geom.Envelope(5, 9, 1, 5), own.getEnvelopeInternal());
    assertEquals(16, own.getArea(), 1e-9);
    assertEquals(0, LayoutPath.of(xs, ys, 2, 0, 0, 0).xs().length);
    assertEquals(0, LayoutPath.of(new double[0], new double[0], 2, 2, 0, 0).xs().length);
  }

  /** More corners than the first room holds. */
  @Test
  void longPath_keepsAllItsCorners() {
    double[] xs = new double[60];
    double[] ys = new double[60];
    for (int i = 0; i < 60; i++) {
      xs[i] = 10 * i;
      ys[i] = i % 2 * 8;
    }
    Geometry own = outline(LayoutPath.of(xs, ys, 1, 0, 0, 0));
    assertEquals(0, own.symDifference(buffer(xs, ys, 1, 2, 5)).getArea(), 1e-6);
  }
}
