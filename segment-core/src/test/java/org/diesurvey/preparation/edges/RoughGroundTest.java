package org.diesurvey.preparation.edges;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import org.diesurvey.photo.PixelSource;
import org.diesurvey.preparation.DrawnSource;
import org.diesurvey.preparation.TurnedDie;
import org.diesurvey.raster.PixelPoint;
import org.diesurvey.raster.PixelRect;
import org.junit.jupiter.api.Test;

/** Grounds and sides that no single colour and no straight line describe. */
class RoughGroundTest {
  private static final int WIDTH = 760;
  private static final int HEIGHT = 660;

  /** Blotches from a fifth to nearly double the mean, wider than the narrow rim of ground. */
  private static double blotches(double x, double y) {
    double wide = Math.sin(x / 23 + Math.sin(y / 31)) * Math.sin(y / 27 - Math.sin(x / 19));
    return 0.42 * (1 + 0.8 * wide);
  }

  private static double layout(double u, double v) {
    double row = Math.floorMod((long) Math.floor(v / 5), 2) == 0 ? 0.08 : -0.08;
    double block = u > 120 && u < 300 && v > 90 && v < 260 ? 0.12 : 0;
    return 0.42 + row + block;
  }

  /** The blotches have one hue, the die another, both about the same brightness. */
  @Test
  void dieOnABlotchyGroundOfItsBrightness_isFoundByItsHue() {
    TurnedDie die = new TurnedDie(383.3, 326.8, 560.4, 480.7, 3.4);
    DrawnSource grey =
        DrawnSource.noisy(
            WIDTH,
            HEIGHT,
            0.01,
            21,
            (x, y) ->
                die.contains(die.u(x, y), die.v(x, y))
                    ? layout(die.u(x, y), die.v(x, y))
                    : blotches(x, y));
    List<DieEdge> found =
        new DieEdgeFinder(
                new Tinted(grey, die, new double[] {1.15, 1, 0.8}, new double[] {0.9, 0.95, 1.2}),
                EdgeTuning.DEFAULT)
            .find();
    assertEquals(1, found.size());
    assertEquals(4, found.get(0).realEdges().size());
    assertCorners(die, found.get(0), 2);
  }

  /** A block of a hue of its own that fills a seventh of a field of layout is not the die. */
  @Test
  void smallBlockOfAnotherHue_isNotTheDie() {
    TurnedDie block = new TurnedDie(300, 320, 300, 240, 2);
    DrawnSource grey = DrawnSource.noisy(WIDTH, HEIGHT, 0.01, 22, (x, y) -> blotches(x, y));
    PixelSource photo =
        new Tinted(grey, block, new double[] {1.15, 1, 0.8}, new double[] {0.9, 0.95, 1.2});
    assertTrue(new DieEdgeFinder(photo, EdgeTuning.DEFAULT).find().isEmpty());
  }

  /** A guess whose sides leave the picture is no die, and no fault either. */
  @Test
  void guessThatLeavesThePicture_isRefused() {
    DrawnSource photo = DrawnSource.noisy(WIDTH, HEIGHT, 0.01, 24, (x, y) -> blotches(x, y));
    CoarseDieRectangle beyond =
        new CoarseDieRectangle(
            WIDTH,
            HEIGHT / 2.0,
            1.6 * WIDTH,
            0.8 * HEIGHT,
            0,
            12,
            1,
            Map.of(DieSide.UPPER, 0.0, DieSide.RIGHT, 0.0, DieSide.LOWER, 0.0, DieSide.LEFT, 0.0),
            List.of(DieSide.RIGHT));
    EdgeRefiner refiner =
        new EdgeRefiner(photo, Overview.of(photo, 800), new float[3], EdgeTuning.DEFAULT);
    assertTrue(refiner.refine(beyond).isEmpty());
    assertTrue(refiner.refineBroken(beyond).isEmpty());
  }

  /** Bites up to 26 px deep side by side leave no straight edge but the outline of what is left. */
  @Test
  void brokenSides_areFollowedAlongTheirOutline() {
    TurnedDie die = new TurnedDie(701.2, 551.4, 1120.3, 860.9, 0.8);
    DrawnSource photo =
        DrawnSource.noisy(
            1400,
            1100,
            0.01,
            23,
            (x, y) -> {
              double u = die.u(x, y);
              double v = die.v(x, y);
              double bite = 43758.5 * Math.sin(12.9898 * Math.floor(u / 9));
              double top = 26 * (bite - Math.floor(bite));
              return die.contains(u, v) && v > top ? layout(u, v) : 0.07;
            });
    List<DieEdge> found = new DieEdgeFinder(photo, EdgeTuning.DEFAULT).find();
    assertEquals(1, found.size());
    assertEquals(4, found.get(0).realEdges().size());
    DieEdge e = found.get(0);
    assertCorners(die, e, 8);
    assertTrue(e.edgeUncertaintyPx() > 2, "uncertainty " + e.edgeUncertaintyPx() + " px");
  }

  private static void assertCorners(TurnedDie die, DieEdge found, double tolerancePx) {
    for (int i = 0; i < 4; i++) {
      PixelPoint is = found.corners().get(i);
      PixelPoint was = die.corners().get(i);
      double off = Math.hypot(is.x() - was.x(), is.y() - was.y());
      assertTrue(off < tolerancePx, "corner " + i + " is off by " + off + " px");
    }
  }

  /** A grey picture whose greys are multiplied by one colour around a rectangle, one in it. */
  private record Tinted(DrawnSource grey, TurnedDie die, double[] ground, double[] inside)
      implements PixelSource {
    @Override
    public int width() {
      return grey.width();
    }

    @Override
    public int height() {
      return grey.height();
    }

    @Override
    public void readGray(PixelRect window, float[] target) {
      grey.readGray(window, target);
    }

    @Override
    public void readRgb(PixelRect w, int[] target) {
      grey.readRgb(w, target);
      for (int i = 0; i < w.width() * w.height(); i++) {
        double x = w.x() + i % w.width() + 0.5;
        double y = w.y() + i / w.width() + 0.5;
        double[] tint = die.contains(die.u(x, y), die.v(x, y)) ? inside : ground;
        int rgb = 0;
        for (double t : tint) {
          rgb = rgb << 8 | (int) Math.min(255, Math.round(t * (target[i] & 0xff)));
        }
        target[i] = rgb;
      }
    }

    @Override
    public void close() {
      // Nothing is held but the heap.
    }
  }
}
