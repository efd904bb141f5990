package org.diesurvey.vision;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.diesurvey.raster.LabelRaster;
import org.diesurvey.raster.PixelRect;
import org.junit.jupiter.api.Test;

class ComponentsTest {
  private static LabelRaster mask(String... rows) {
    LabelRaster out = new LabelRaster(rows[0].length(), rows.length);
    for (int y = 0; y < rows.length; y++) {
      for (int x = 0; x < rows[y].length(); x++) {
        out.set(x, y, rows[y].charAt(x) == '#' ? 1 : 0);
      }
    }
    return out;
  }

  /** Two bodies that touch by two cells, and a thing too thin to have a body. */
  @Test
  void necks_partBodies_andEveryCellKeepsAPart() {
    LabelRaster mask =
        mask(
            "#####......",
            "#####......",
            "#####..#...",
            "#######....",
            "....#######",
            "......#####",
            "##....#####",
            "......#####");
    assertEquals(3, Components.label(mask).components().size(), "the neck joins by sides");
    Components.Labelling parted = Components.partedAtNecks(mask, 1);
    int[] ids = parted.ids();
    assertEquals(4, parted.components().size());
    int cells = 0;
    for (Components.Component c : parted.components()) {
      cells += c.cells();
    }
    for (int i = 0; i < ids.length; i++) {
      assertEquals(mask.array()[i] != 0, ids[i] > 0, "cell " + i);
      cells -= ids[i] > 0 ? 1 : 0;
    }
    assertEquals(0, cells, "components count their cells");
    assertTrue(ids[0] != ids[7 * 11 + 10], "the bodies are two");
    assertEquals(ids[0], ids[3 * 11 + 5], "the neck belongs to the nearer body");
    // Two cells of the neck lie beside the lower body.
    PixelRect lower = new PixelRect(5, 3, 6, 5);
    assertEquals(lower, parted.components().get(ids[7 * 11 + 10] - 1).bounds());
  }

  @Test
  void componentsWithoutNecks_areThoseOfTheLabelling() {
    LabelRaster mask = mask("####.##", "####...", "####.##", "......#");
    Components.Labelling plain = Components.label(mask);
    Components.Labelling parted = Components.partedAtNecks(mask, 1);
    assertArrayEquals(plain.ids(), parted.ids());
    assertEquals(plain.components(), parted.components());
  }
}
