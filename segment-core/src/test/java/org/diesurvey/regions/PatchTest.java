package org.diesurvey.regions;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.tiles.TileGrid;
import org.diesurvey.vision.Components;
import org.junit.jupiter.api.Test;

/** A patch of five tiles in a corner, another beside it, on 5 x 4 tiles of 8 um. */
class PatchTest {
  private static final TileGrid GRID = new TileGrid(8, 1, 40, 32);

  private static Patch patch(String rows, int part) {
    LabelRaster mask = new LabelRaster(5, 4);
    for (int t = 0; t < 20; t++) {
      mask.set(t % 5, t / 5, rows.charAt(t) == '#' ? 1 : 0);
    }
    Components.Labelling parts = Components.label(mask);
    return new Patch(parts, parts.components().get(part), GRID);
  }

  private static final String CORNER =
      "##..#" //
          + "#.#.#"
          + "##..#"
          + "....#";

  @Test
  void meanAndArea_areThoseOfItsTilesAlone() {
    Patch p = patch(CORNER, 0);
    assertEquals(5 * 64, p.areaUm2(), 1e-12);
    // Tiles 0, 1, 5, 10, 11.
    assertEquals((0 + 1 + 5 + 10 + 11) / 5.0, p.mean(t -> t), 1e-12);
  }

  @Test
  void relabel_changesItsTilesAlone() {
    int[] label = new int[20];
    Arrays.fill(label, 9);
    patch(CORNER, 0).relabel(label, SurfaceClass.MACRO);
    int[] expected = new int[20];
    Arrays.fill(expected, 9);
    for (int t : new int[] {0, 1, 5, 10, 11}) {
      expected[t] = SurfaceClass.MACRO.ordinal();
    }
    assertArrayEquals(expected, label);
  }

  /** Tiles that share a side with it: 2, 6, 12, 15, 16; not 7 or 17, which only meet a corner. */
  @Test
  void around_isTheShareOfTheTilesThatTouch() {
    for (int t = 0; t < 20; t++) {
      int one = t;
      boolean touches = Arrays.asList(2, 6, 12, 15, 16).contains(t);
      assertEquals(touches ? 0.2 : 0, patch(CORNER, 0).around(u -> u == one), 1e-12, "tile " + t);
    }
    // The one along the right border.
    assertEquals(1, patch(CORNER, 1).around(u -> u % 5 == 3), 1e-12);
    assertEquals(0, patch("#".repeat(20), 0).around(u -> true));
  }

  /** The end of a row and the begin of the next do not touch, nor what lies beyond the die. */
  @Test
  void around_endsAtTheBordersOfTheDie() {
    for (String rows :
        new String[] {
          "....." + "####." + "....." + ".....",
          "....." + ".####" + "....." + ".....",
          "....." + "....." + "##..." + ".....",
          "....." + "##..." + "....." + "....."
        }) {
      for (int t = 0; t < 20; t++) {
        int x = t % 5;
        int y = t / 5;
        boolean own = rows.charAt(t) == '#';
        boolean touches =
            !own
                && (x > 0 && rows.charAt(t - 1) == '#'
                    || x < 4 && rows.charAt(t + 1) == '#'
                    || y > 0 && rows.charAt(t - 5) == '#'
                    || y < 3 && rows.charAt(t + 5) == '#');
        int one = t;
        assertEquals(touches, patch(rows, 0).around(u -> u == one) > 0, rows + " " + t);
      }
    }
  }
}
