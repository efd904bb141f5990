package org.diesurvey.interchange;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;
import org.junit.jupiter.api.Test;

/** Rings as files have them, corners rounded to a hundredth. */
class RoundedRingsTest {
  private static Point p(double x, double y) {
    return new Point(x, y);
  }

  /** The shell's lower side rises by 0.6 % and the hole lies along it, 0.0003 below. */
  @Test
  void aHoleAlongASide_leavesNoSliver() {
    List<Point> shell = List.of(p(0, 0), p(100, 0.6), p(100, 40), p(0, 39.4));
    List<Point> hole = List.of(p(33.37, 0.19), p(51.83, 0.3), p(51.8, 10), p(33.3, 9.9));
    List<Outline> parts = OutlineShapes.evenOdd(List.of(shell, hole));
    assertEquals(1, parts.size());
    double holeArea = Math.abs(OutlineShapes.signedArea(hole));
    assertEquals(39.4 * 100 - holeArea, OutlineShapes.polygon(parts.get(0)).getArea(), 0.5);
  }

  @Test
  void aCornerFoldedByItsLastDigit_isNoCrossing() {
    List<Point> folded =
        List.of(p(0, 0), p(50, 0), p(50, 30), p(20, 30), p(20.01, 29.99), p(20, 30.01), p(0, 30));
    List<Outline> parts = OutlineShapes.evenOdd(List.of(folded));
    assertEquals(1, parts.size());
    assertEquals(1500, OutlineShapes.polygon(parts.get(0)).getArea(), 0.2);
  }

  @Test
  void aRingThatCrossesItself_isRefusedStill() {
    assertEquals(
        List.of(), OutlineShapes.evenOdd(List.of(List.of(p(0, 0), p(40, 30), p(40, 0), p(0, 20)))));
  }
}
