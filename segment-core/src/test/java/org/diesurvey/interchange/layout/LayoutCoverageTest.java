package org.diesurvey.interchange.layout;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** Areas that can be worked out by hand; px, y down. */
class LayoutCoverageTest {
  private static final int SIDE = 20;

  private static double[][] coverage(double[]... shapes) {
    LayoutEdges edges = new LayoutEdges();
    for (double[] xy : shapes) {
      double[] xs = new double[xy.length / 2];
      double[] ys = new double[xs.length];
      for (int i = 0; i < xs.length; i++) {
        xs[i] = xy[2 * i];
        ys[i] = xy[2 * i + 1];
      }
      edges.add(xs, ys);
    }
    double[][] out = new double[SIDE][];
    LayoutCoverage.rows(edges, SIDE, SIDE, (y, share) -> out[y] = share.clone());
    return out;
  }

  private static double sum(double[][] rows) {
    double sum = 0;
    for (double[] row : rows) {
      for (double v : row) {
        sum += v;
      }
    }
    return sum;
  }

  private static double[] rectangle(double x0, double y0, double x1, double y1) {
    return new double[] {x0, y0, x1, y0, x1, y1, x0, y1};
  }

  @Test
  void rectangleBetweenPixels_coversItsShares() {
    double[][] c = coverage(rectangle(2.25, 3.5, 5.5, 4.75));
    assertEquals(0.75 * 0.5, c[3][2], 1e-12);
    assertEquals(0.5, c[3][3], 1e-12);
    assertEquals(0.5 * 0.75, c[4][5], 1e-12);
    assertEquals(3.25 * 1.25, sum(c), 1e-12);
  }

  /** Two of 30 % and 40 % of one pixel that share 20 % cover half of it, not 70 %. */
  @Test
  void overlaps_countOnce() {
    double[][] c = coverage(rectangle(4, 4, 4.3, 5), rectangle(4.1, 4, 4.5, 5));
    assertEquals(0.5, c[4][4], 1e-12);
    // Other way round, and three deep.
    double[] turned = {4.1, 4, 4.1, 5, 4.5, 5, 4.5, 4};
    assertEquals(0.5, coverage(rectangle(4, 4, 4.3, 5), turned, turned)[4][4], 1e-12);
  }

  @Test
  void slantedEdges_coverTheirArea() {
    double[] triangle = {1.3, 2.1, 17.9, 6.4, 5.2, 18.7};
    double area = Math.abs((17.9 - 1.3) * (18.7 - 2.1) - (5.2 - 1.3) * (6.4 - 2.1)) / 2;
    assertEquals(area, sum(coverage(triangle)), 1e-9);
  }

  /** Two bars of width 2 and length 14 that cross at right angles, turned by 45 degrees. */
  @Test
  void slantedShapesThatCross_countTheirOverlapOnce() {
    double h = Math.sqrt(0.5);
    double[] one = bar(h, h);
    double[] other = bar(h, -h);
    assertEquals(2 * 2 * 14 - 4, sum(coverage(one, other)), 1e-9);
  }

  private static double[] bar(double dx, double dy) {
    double[] xy = new double[8];
    int[][] corners = {{-7, -1}, {7, -1}, {7, 1}, {-7, 1}};
    for (int i = 0; i < 4; i++) {
      xy[2 * i] = 10 + corners[i][0] * dx - corners[i][1] * dy;
      xy[2 * i + 1] = 10 + corners[i][0] * dy + corners[i][1] * dx;
    }
    return xy;
  }

  @Test
  void whatLiesOutsideThePicture_isCut() {
    assertEquals(SIDE * SIDE, sum(coverage(rectangle(-50, -3, 70, 31))), 1e-9);
    assertEquals(4, sum(coverage(rectangle(-50, -3, 2, 2))), 1e-9);
    assertEquals(2, sum(coverage(new double[] {-2, 0, 2, 0, -2, 4})), 1e-9);
    assertEquals(0, sum(coverage(rectangle(21, 1, 30, 4))), 1e-9);
  }

  @Test
  void paths_haveTheAreaOfTheirEnds() {
    double[] xs = {2, 12, 12};
    double[] ys = {3, 3, 13};
    // Ten and ten long with a mitred corner, 2 wide.
    assertEquals(40, area(LayoutPath.of(xs, ys, 1, 0, 0, 0)), 1e-9);
    assertEquals(44, area(LayoutPath.of(xs, ys, 1, 2, 0, 0)), 1e-9);
    assertEquals(43, area(LayoutPath.of(xs, ys, 1, 4, 0.5, 1)), 1e-9);
    double half = 16 * Math.sin(Math.PI / 16) / 2;
    assertEquals(40 + 2 * half, area(LayoutPath.of(xs, ys, 1, 1, 0, 0)), 1e-9);
  }

  private static double area(LayoutPath p) {
    double[] xy = new double[2 * p.xs().length];
    for (int i = 0; i < p.xs().length; i++) {
      xy[2 * i] = p.xs()[i];
      xy[2 * i + 1] = p.ys()[i];
    }
    return sum(coverage(xy));
  }
}
