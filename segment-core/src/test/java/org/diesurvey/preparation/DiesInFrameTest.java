package org.diesurvey.preparation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.diesurvey.preparation.edges.DieSide;
import org.diesurvey.preparation.edges.EdgeTuning;
import org.diesurvey.raster.PixelPoint;
import org.junit.jupiter.api.Test;

/** Dies that the photograph cuts, several dies, tilted dies. */
class DiesInFrameTest {
  private static double surface(double u, double v) {
    return 0.5
        + 0.12 * LayoutDirectionTest.bar(u, 23, 9) * LayoutDirectionTest.bar(v, 17, 10)
        + 0.02 * Math.sin(u * 0.7) * Math.sin(v * 0.9);
  }

  private static DrawnSource photo(int w, int h, TurnedDie... dies) {
    return DrawnSource.of(
        w,
        h,
        (x, y) -> {
          for (TurnedDie d : dies) {
            if (d.contains(d.u(x, y), d.v(x, y))) {
              return surface(d.u(x, y) + 1000, d.v(x, y) + 1000);
            }
          }
          return 0.06;
        });
  }

  @Test
  void dieCutOnTwoSides_hasTheOtherTwoAsRealEdges() {
    // The die runs out of the picture on the right and below.
    TurnedDie die = new TurnedDie(500, 420, 860, 700, 2);
    DieFrames all = PreparedDie.locateAll(photo(640, 520, die), EdgeTuning.DEFAULT);
    assertEquals(1, all.dies().size());
    DieLocation f = all.die(1);
    assertEquals(List.of(DieSide.UPPER, DieSide.LEFT), f.realEdges());
    assertTrue(f.partial());
    assertFalse(f.edgeFound());
    assertEquals(2, f.rotationDeg(), 0.1);
    assertEquals(die.corners().get(0).x(), f.corners().get(0).x(), 1.5);
    assertEquals(die.corners().get(0).y(), f.corners().get(0).y(), 1.5);
    double seen = VisiblePart.areaPx(die.corners(), 640, 520);
    assertEquals(seen, f.visibleAreaPx(640, 520), 0.01 * seen);
  }

  @Test
  void severalDies_areNumberedAsOneReads() {
    TurnedDie a = new TurnedDie(160, 150, 220, 200, 1);
    TurnedDie b = new TurnedDie(460, 165, 260, 230, -1);
    TurnedDie c = new TurnedDie(160, 430, 220, 200, 0);
    DieFrames all = PreparedDie.locateAll(photo(640, 580, c, b, a), EdgeTuning.DEFAULT);
    assertEquals(3, all.dies().size());
    for (int i = 0; i < 3; i++) {
      TurnedDie truth = List.of(a, b, c).get(i);
      PixelPoint middle = DieFrames.middle(all.die(i + 1));
      assertEquals(truth.cx(), middle.x(), 2);
      assertEquals(truth.cy(), middle.y(), 2);
    }
    assertEquals(2, all.usual(640, 580), "the largest");
  }

  @Test
  void tiltedDie_isStraightenedToItsOwnCorners() {
    List<PixelPoint> corners =
        List.of(
            new PixelPoint(86, 62),
            new PixelPoint(548, 60),
            new PixelPoint(570, 520),
            new PixelPoint(64, 522));
    var map = org.diesurvey.raster.Homography.ofRectangle(1, 1, corners);
    DrawnSource photo =
        DrawnSource.of(
            640,
            580,
            (x, y) -> {
              double u = 0.5;
              double v = 0.5;
              for (int i = 0; i < 12; i++) {
                u -= (map.x(u, v) - x) / 480;
                v -= (map.y(u, v) - y) / 460;
              }
              boolean on = u >= 0 && u <= 1 && v >= 0 && v <= 1;
              return on ? surface(u * 480 + 1000, v * 460 + 1000) : 0.06;
            });
    DieLocation f = PreparedDie.locate(photo);
    assertTrue(f.tilted());
    for (int i = 0; i < 4; i++) {
      assertEquals(corners.get(i).x(), f.corners().get(i).x(), 1.5);
      assertEquals(corners.get(i).y(), f.corners().get(i).y(), 1.5);
    }
    assertEquals(-0.09, f.convergenceAcross(), 0.01);
    PreparedDie upright = PreparedDie.of(photo, f, 1);
    var rows = upright.rows(100, 100);
    // A bar of the pattern runs straight down the upright die.
    double straight = 0;
    for (int y = 1; y < 100; y++) {
      for (int x = 20; x < rows.width() - 20; x++) {
        straight += Math.abs(rows.get(x, y) - rows.get(x, y - 1)) / (99.0 * rows.width());
      }
    }
    assertTrue(straight < 0.03, "changes down a column by " + straight);
  }

  @Test
  void uprightDie_isNotTilted() {
    DieLocation f = PreparedDie.locate(photo(640, 580, new TurnedDie(320, 290, 500, 440, 3)));
    assertTrue(f.edgeFound());
    assertFalse(f.tilted());
  }
}
