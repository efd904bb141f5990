package org.diesurvey.measures;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.diesurvey.classification.DieClass;
import org.diesurvey.quantity.Measured;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Polygon;

class RegionMeasuresTest {
  private static final DieClass LOGIC = DieClass.LOGIC;

  private static final Measured PITCH = new Measured(0.5, 0.002);

  private static Polygon rectangle(double x, double width, double height) {
    return new GeometryFactory()
        .createPolygon(
            new Coordinate[] {
              new Coordinate(x, 0),
              new Coordinate(x + width, 0),
              new Coordinate(x + width, height),
              new Coordinate(x, height),
              new Coordinate(x, 0)
            });
  }

  /**
   * Own arithmetic from JCGM 100:2008, equation 10: A = N p^2 with N = 1e6 and p = 0.5 um is 0.25
   * mm2; the pitch gives 2 x 0.4 % = 0.8 %; four sides of 1000 px, each uncertain by 7 um = 14 px,
   * give sqrt(4) x 14000 = 28000 px of 1e6, 2.8 %; together 2.912 %.
   */
  @Test
  void squareMillimetreQuarter_isThreePercentUncertain() {
    Measured a = RegionMeasures.areaMm2(rectangle(0, 1000, 1000), LOGIC, PITCH).joined();
    assertEquals(0.25, a.value(), 1e-12);
    assertEquals(0.0291204, a.relativeUncertainty(), 1e-6);
  }

  /** Monte Carlo after JCGM 101:2008: four sides that err independently, one unknown pitch. */
  @Test
  void formula_agreesWithDrawnSquares() {
    Measured a = RegionMeasures.areaMm2(rectangle(0, 400, 400), LOGIC, PITCH).joined();
    double edgePx = RegionMeasures.edgeUm(LOGIC) / PITCH.value();
    Random random = new Random(20262);
    int draws = 200_000;
    double sum = 0;
    double squares = 0;
    for (int i = 0; i < draws; i++) {
      double w = 400 + edgePx * (random.nextGaussian() + random.nextGaussian());
      double h = 400 + edgePx * (random.nextGaussian() + random.nextGaussian());
      double p = PITCH.value() + PITCH.standardUncertainty() * random.nextGaussian();
      double mm2 = w * h * p * p / 1e6;
      sum += mm2;
      squares += mm2 * mm2;
    }
    double mean = sum / draws;
    double spread = Math.sqrt(squares / draws - mean * mean);
    assertEquals(spread, a.standardUncertainty(), 0.01 * spread);
  }

  /** The same for rectangles without the pitch: the model falls short of the sides by this much. */
  @ParameterizedTest(name = "{0} x {1}")
  @CsvSource({"400, 400, 1", "400, 250, 0.974", "800, 200, 0.857"})
  void longRectangles_areALittleLessUncertainThanTheirSides(double w, double h, double share) {
    Measured a = RegionMeasures.areaMm2(rectangle(0, w, h), LOGIC, Measured.exact(2)).joined();
    double edgePx = RegionMeasures.edgeUm(LOGIC) / 2;
    Random random = new Random(20263);
    int draws = 200_000;
    double squares = 0;
    for (int i = 0; i < draws; i++) {
      double wide = edgePx * (random.nextGaussian() + random.nextGaussian());
      double high = edgePx * (random.nextGaussian() + random.nextGaussian());
      double mm2 = ((w + wide) * (h + high) - w * h) * 4 / 1e6;
      squares += mm2 * mm2;
    }
    assertEquals(share, a.standardUncertainty() / Math.sqrt(squares / draws), 0.01);
  }

  /** The same square as a macro: 12 um a side give 4.8 %, with the pitch 4.866 %. */
  @Test
  void macro_isLessSureThanOtherRegions() {
    Measured a =
        RegionMeasures.areaMm2(rectangle(0, 1000, 1000), DieClass.HARD_MACRO, PITCH).joined();
    assertEquals(Math.hypot(0.048, 0.008), a.relativeUncertainty(), 1e-9);
  }

  /** The pitch is common: two like regions are together no better known than by the scale. */
  @Test
  void total_addsScaleTermsPlainlyAndEdgesInSquares() {
    Polygon p = rectangle(0, 1000, 1000);
    Measured total =
        RegionMeasures.totalMm2(List.of(p, rectangle(2000, 1000, 1000)), LOGIC, PITCH).joined();
    assertEquals(0.5, total.value(), 1e-12);
    assertEquals(Math.hypot(0.008, 0.028 / Math.sqrt(2)), total.relativeUncertainty(), 1e-9);
  }

  @Test
  void hole_takesAreaAwayAndAddsUncertainty() {
    Polygon frame = (Polygon) rectangle(0, 1000, 1000).difference(inset());
    Measured with = RegionMeasures.areaMm2(frame, LOGIC, PITCH).joined();
    Measured without = RegionMeasures.areaMm2(rectangle(0, 1000, 1000), LOGIC, PITCH).joined();
    assertEquals(0.25 * (1 - 0.16), with.value(), 1e-12);
    assertTrue(with.relativeUncertainty() > without.relativeUncertainty());
  }

  @Test
  void rest_isTheOutlineWithoutTheInner_andCarriesTheEdgesOfBoth() {
    Polygon outline = rectangle(0, 1000, 1000);
    Measured rest = RegionMeasures.restMm2(outline, List.of(inset()), LOGIC, PITCH).joined();
    assertEquals(0.25 * (1 - 0.16), rest.value(), 1e-12);
    Measured inner = RegionMeasures.areaMm2(inset(), LOGIC, PITCH).joined();
    Measured all = RegionMeasures.areaMm2(outline, LOGIC, PITCH).joined();
    assertEquals(all.value(), rest.value() + inner.value(), 1e-12);
    assertTrue(rest.standardUncertainty() > inner.standardUncertainty());
  }

  private static Polygon inset() {
    return (Polygon)
        org.locationtech.jts.geom.util.AffineTransformation.translationInstance(300, 300)
            .transform(rectangle(0, 400, 400));
  }

  @Test
  void exactScale_leavesTheEdges() {
    Measured a =
        RegionMeasures.areaMm2(rectangle(0, 1000, 1000), LOGIC, Measured.exact(0.5)).joined();
    assertEquals(0.028, a.relativeUncertainty(), 1e-9);
  }
}
