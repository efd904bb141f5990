package org.diesurvey.preparation.edges;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import org.diesurvey.preparation.DrawnSource;
import org.diesurvey.preparation.TurnedDie;
import org.diesurvey.raster.PixelPoint;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The truth is the rectangle that was drawn. */
class DieEdgeFinderTest {
  private static final int WIDTH = 760;
  private static final int HEIGHT = 660;

  /** Rows and blocks of unlike brightness, up to the very edge. */
  private static double layout(double u, double v) {
    double row = Math.floorMod((long) Math.floor(v / 5), 2) == 0 ? 0.1 : -0.1;
    double block = u > 120 && u < 300 && v > 90 && v < 260 ? 0.12 : 0;
    return 0.48 + row + block;
  }

  private static double background(String kind, double x, double y) {
    return switch (kind) {
      case "dark" -> 0.06;
      case "bright" -> 0.95;
      // A sanded holder: dots of 3 px.
      default -> 0.1 + 0.07 * Math.sin(2.1 * x + 0.4 * y) * Math.sin(1.9 * y - 0.6 * x);
    };
  }

  @ParameterizedTest(name = "{0} deg, {1} background")
  @CsvSource({
    "-12, dark",
    "-5.5, textured",
    "-0.7, bright",
    "0, dark",
    "0, bright",
    "0, textured",
    "2.3, bright",
    "7, dark",
    "12, textured",
    "12, bright",
    "-12, textured"
  })
  void drawnDie_hasItsCornersWithinHalfAPixel(double deg, String kind) {
    TurnedDie die = new TurnedDie(383.3, 326.8, 520.4, 430.7, deg);
    DrawnSource photo =
        DrawnSource.noisy(
            WIDTH,
            HEIGHT,
            0.01,
            7,
            (x, y) -> {
              double u = die.u(x, y);
              double v = die.v(x, y);
              return die.contains(u, v) ? layout(u, v) : background(kind, x, y);
            });
    assertCorners(die, photo, 0.5);
  }

  /** Sawing chips: a fifth of every side is bitten away up to 9 px, one corner is broken off. */
  @ParameterizedTest(name = "{0} deg")
  @CsvSource({"-6", "0", "3.1"})
  void chippedDie_hasItsCornersWithinHalfAPixel(double deg) {
    TurnedDie die = new TurnedDie(381.2, 331.4, 540.3, 440.9, deg);
    DrawnSource photo =
        DrawnSource.noisy(
            WIDTH,
            HEIGHT,
            0.01,
            8,
            (x, y) -> {
              double u = die.u(x, y);
              double v = die.v(x, y);
              return die.contains(u, v) && !chipped(die, u, v) ? layout(u, v) : 0.07;
            });
    assertCorners(die, photo, 0.5);
  }

  private static boolean chipped(TurnedDie die, double u, double v) {
    double depth = Math.min(Math.min(u, die.w() - u), Math.min(v, die.h() - v));
    boolean acrossIsU = depth == u || depth == die.w() - u;
    double along = acrossIsU ? v : u;
    double bite = 9 * Math.sin(Math.PI * (along % 70) / 14);
    return along % 70 < 14 && depth < bite || u + v < 30;
  }

  private static void assertCorners(TurnedDie die, DrawnSource photo, double tolerancePx) {
    Optional<DieEdge> found =
        new DieEdgeFinder(photo, EdgeTuning.DEFAULT).find().stream().findFirst();
    assertTrue(found.isPresent(), "no die edge found");
    assertEquals(die.deg(), found.get().rotationDeg(), 0.1, "rotation");
    for (int i = 0; i < 4; i++) {
      PixelPoint is = found.get().corners().get(i);
      PixelPoint was = die.corners().get(i);
      double off = Math.hypot(is.x() - was.x(), is.y() - was.y());
      assertTrue(off < tolerancePx, "corner " + i + " is off by " + off + " px");
    }
    assertEquals(die.w(), found.get().widthPx(), Math.sqrt(2) * tolerancePx);
    assertEquals(die.h(), found.get().heightPx(), Math.sqrt(2) * tolerancePx);
  }

  @Test
  void layoutOverTheWholePicture_hasNoDieEdge() {
    DrawnSource photo = DrawnSource.noisy(WIDTH, HEIGHT, 0.02, 9, DieEdgeFinderTest::layout);
    assertTrue(new DieEdgeFinder(photo, EdgeTuning.DEFAULT).find().stream().findFirst().isEmpty());
  }

  /** A large bright block with logic all around is not the die. */
  @Test
  void blockInALayout_isNotTheDie() {
    DrawnSource photo =
        DrawnSource.noisy(
            WIDTH,
            HEIGHT,
            0.02,
            10,
            (x, y) -> {
              double rows = Math.floorMod((long) Math.floor(y / 6), 2) == 0 ? 0.34 : 0.5;
              double cells = Math.floorMod((long) Math.floor(x / 4), 3) == 0 ? 0.1 : 0;
              boolean block = x > 150 && x < 610 && y > 120 && y < 540;
              return block ? 0.6 + cells : rows - cells;
            });
    assertTrue(new DieEdgeFinder(photo, EdgeTuning.DEFAULT).find().stream().findFirst().isEmpty());
  }

  @Test
  void flatPicture_hasNoDieEdge() {
    DrawnSource photo = DrawnSource.noisy(WIDTH, HEIGHT, 0.02, 11, (x, y) -> 0.4);
    assertTrue(new DieEdgeFinder(photo, EdgeTuning.DEFAULT).find().stream().findFirst().isEmpty());
  }
}
