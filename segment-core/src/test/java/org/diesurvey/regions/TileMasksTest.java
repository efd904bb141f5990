package org.diesurvey.regions;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.diesurvey.raster.LabelRaster;
import org.diesurvey.vision.Components;
import org.junit.jupiter.api.Test;

class TileMasksTest {
  private static LabelRaster mask(String... rows) {
    LabelRaster m = new LabelRaster(rows[0].length(), rows.length);
    for (int y = 0; y < rows.length; y++) {
      for (int x = 0; x < rows[y].length(); x++) {
        m.set(x, y, rows[y].charAt(x) == '#' ? 1 : 0);
      }
    }
    return m;
  }

  private static void assertMask(LabelRaster is, String... rows) {
    StringBuilder text = new StringBuilder();
    for (int y = 0; y < is.height(); y++) {
      for (int x = 0; x < is.width(); x++) {
        text.append(is.get(x, y) != 0 ? '#' : '.');
      }
      text.append('\n');
    }
    assertEquals(String.join("\n", rows) + "\n", text.toString());
  }

  @Test
  void enclosedHole_isFilled_openBayIsNot() {
    assertMask(
        TileMasks.fillHoles(
            mask(
                "........", //
                ".######.",
                ".#..##..",
                ".#..#.#.",
                ".######."),
            1),
        "........",
        ".######.",
        ".#####..",
        ".######.",
        ".######.");
  }

  @Test
  void holeTooLargeForThePartAroundIt_staysOpen() {
    String[] ring = {
      ".......", //
      ".#####.", ".#...#.", ".#...#.", ".#...#.", ".#####.", "......."
    };
    assertMask(TileMasks.fillHoles(mask(ring), 0.5), ring);
    assertEquals(1, TileMasks.fillHoles(mask(ring), 0.6).get(3, 3));
  }

  @Test
  void specks_fallAway() {
    assertMask(
        TileMasks.largeParts(mask("##..#", "##...", "....#"), 3), //
        "##...",
        "##...",
        ".....");
  }

  /** Touching at a corner is not joined: parts are 4-connected. */
  @Test
  void diagonalNeighbours_areTwoParts() {
    assertMask(TileMasks.largeParts(mask("##..", "..##"), 3), "....", "....");
  }

  private static LabelRaster regular(LabelRaster m) {
    Components.Labelling parts = Components.label(m);
    return TileMasks.regular(parts, parts.components().get(0), m.width(), m.height());
  }

  @Test
  void nearlyRectangularPart_becomesItsRectangle_withoutBumps() {
    assertMask(
        regular(
            mask(
                ".......#..", //
                ".########.",
                ".###.####.",
                ".########.",
                "..#######.",
                "..........")),
        "..........",
        ".########.",
        ".########.",
        ".########.",
        ".########.",
        "..........");
  }

  @Test
  void angledPart_keepsItsShape() {
    String[] angle = {
      "##......", //
      "##......",
      "##......",
      "########",
      "########"
    };
    assertMask(regular(mask(angle)), angle);
  }

  @Test
  void partOfExactlyTheLeastSize_stays() {
    assertMask(TileMasks.largeParts(mask("##..#", "##..."), 4), "##...", "##...");
  }
}
