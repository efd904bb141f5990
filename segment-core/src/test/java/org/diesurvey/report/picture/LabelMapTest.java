package org.diesurvey.report.picture;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;
import org.diesurvey.survey.SmallSurvey;
import org.diesurvey.survey.Survey;
import org.diesurvey.survey.SurveyRegion;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class LabelMapTest {

  private static Map<Integer, Integer> counts(LabelRaster map) {
    Map<Integer, Integer> counts = new TreeMap<>();
    for (byte code : map.array()) {
      counts.merge(code & 0xff, 1, Integer::sum);
    }
    return counts;
  }

  @Test
  void pixelCounts_equalTheAreasOfTheOutlines() {
    // Worked out by hand, see SmallSurvey; 1200 px of photo less 768 px of die are off-die.
    LabelRaster map = LabelMap.of(SmallSurvey.of(true));
    assertEquals(Map.of(0, 432, 1, 80, 3, 112, 4, 384, 255, 192), counts(map));
  }

  @Test
  void corners_lieWhereThePixelFrameSays() {
    LabelRaster map = LabelMap.of(SmallSurvey.of(true));
    assertEquals(0, map.get(3, 3));
    assertEquals(4, map.get(4, 3));
    assertEquals(4, map.get(35, 26));
    assertEquals(0, map.get(36, 26));
    assertEquals(1, map.get(8, 7));
    assertEquals(1, map.get(17, 14));
    assertEquals(3, map.get(18, 7));
    assertEquals(3, map.get(19, 7));
    assertEquals(255, map.get(20, 7));
  }

  @Test
  void earlierRegionWins_butUnclearNever() {
    Survey s = SmallSurvey.of(true);
    List<SurveyRegion> turned =
        List.of(s.regions().get(3), s.regions().get(1), s.regions().get(0), s.regions().get(2));
    Survey other = s.withRegions(turned);
    assertEquals(counts(LabelMap.of(s)), counts(LabelMap.of(other)));
  }

  @Test
  void placeOnTheDieWithoutRegion_isUnclear() {
    Survey s = SmallSurvey.of(true);
    Survey bare = s.withRegions(List.of());
    assertEquals(Map.of(0, 432, 255, 768), counts(LabelMap.of(bare)));
  }

  @ParameterizedTest(name = "{0} degrees")
  @ValueSource(doubles = {0, 0.7, 13, 45, 89.5})
  void turnedNeighbours_shareNoPixelAndLeaveNoGap(double degrees) {
    double c = Math.cos(Math.toRadians(degrees));
    double s = Math.sin(Math.toRadians(degrees));
    List<Point> left = turned(c, s, -70, -50, 0, 50);
    List<Point> right = turned(c, s, 0, -50, 60, 50);
    List<Point> both = turned(c, s, -70, -50, 60, 50);
    int l = pixels(left);
    int r = pixels(right);
    assertEquals(pixels(both), l + r);
    // A convex outline of perimeter L holds its area to within about L / 2 px; far less in fact.
    assertEquals(7000, l, 60);
    assertEquals(6000, r, 60);
  }

  private static List<Point> turned(
      double c, double s, double x0, double y0, double x1, double y1) {
    double[][] box = {{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}};
    return java.util.Arrays.stream(box)
        .map(p -> new Point(100.3 + c * p[0] - s * p[1], 100.7 + s * p[0] + c * p[1]))
        .toList();
  }

  private static int pixels(List<Point> ring) {
    OutlineRows rows = new OutlineRows(new Outline(ring, List.of()));
    int[] n = new int[1];
    for (int y = Math.max(0, rows.firstRow()); y <= rows.lastRow(); y++) {
      rows.row(y, 200, (from, to) -> n[0] += to - from);
    }
    return n[0];
  }

  @Test
  void outlineBeyondTheFrame_isCut() {
    OutlineRows rows =
        new OutlineRows(
            List.of(
                List.of(
                    new Point(-5, -5), new Point(50, -5), new Point(50, 50), new Point(-5, 50))));
    int[] n = new int[1];
    for (int y = 0; y < 10; y++) {
      rows.row(y, 20, (from, to) -> n[0] += to - from);
    }
    assertEquals(200, n[0]);
  }
}
