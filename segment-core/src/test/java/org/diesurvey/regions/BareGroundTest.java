package org.diesurvey.regions;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.features.DrawnTable;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.preparation.DrawnSource;
import org.diesurvey.preparation.edges.DieSide;
import org.diesurvey.regions.ring.PadRing;
import org.diesurvey.regions.ring.PadRingFinder;
import org.diesurvey.regions.ring.RingTuning;
import org.diesurvey.tiles.TileGrid;
import org.junit.jupiter.api.Test;

/** A flat die of 1000 x 800 um with wide bare ground; the probabilities are made up. */
class BareGroundTest {
  private static final int WIDTH = 1000;
  private static final int HEIGHT = 800;
  private static final TileGrid GRID = new TileGrid(8, 1, WIDTH, HEIGHT);
  private static final FeatureTable FEATURES =
      DrawnTable.of(DrawnSource.noisy(WIDTH, HEIGHT, 0.01, 7, (x, y) -> 0.5), GRID);

  /** A surface for each place, um. */
  private interface Layout {
    SurfaceClass at(double x, double y);
  }

  private static TileProbabilities probabilities(Layout layout) {
    float[] p = new float[GRID.count() * SurfaceClass.COUNT];
    for (int t = 0; t < GRID.count(); t++) {
      SurfaceClass c =
          layout.at((t % GRID.columns() + 0.5) * GRID.tileUm(), (t / GRID.columns() + 0.5) * 8);
      for (int k = 0; k < SurfaceClass.COUNT; k++) {
        p[t * SurfaceClass.COUNT + k] = k == c.ordinal() ? 0.95f : 0.01f;
      }
    }
    return new TileProbabilities(GRID, p, new float[GRID.count()]);
  }

  private static boolean inside(double x, double y, double x0, double y0, double x1, double y1) {
    return x > x0 && x < x1 && y > y0 && y < y1;
  }

  @Test
  void blocksInBareGround_areToldApart_andTheGroundStaysBare() {
    TileProbabilities p =
        probabilities(
            (x, y) ->
                inside(x, y, 200, 200, 330, 300) || inside(x, y, 600, 500, 760, 620)
                    ? SurfaceClass.MACRO
                    : SurfaceClass.BARE);
    boolean[] all = new boolean[GRID.count()];
    Arrays.fill(all, true);
    CoreLabelling labels = CoreLabelling.of(p, FEATURES, all, false, RegionTuning.DEFAULT);
    int wrong = 0;
    for (int t = 0; t < GRID.count(); t++) {
      double x = (t % GRID.columns() + 0.5) * 8;
      double y = (t / GRID.columns() + 0.5) * 8;
      boolean macro = inside(x, y, 200, 200, 330, 300) || inside(x, y, 600, 500, 760, 620);
      SurfaceClass truth = macro ? SurfaceClass.MACRO : SurfaceClass.BARE;
      wrong += labels.label(t) == truth.ordinal() ? 0 : 1;
    }
    // A frame of one tile and a half about the blocks is all that may be off.
    assertTrue(wrong < 1.5 * 2 * (130 + 100 + 160 + 120) / 8, wrong + " tiles wrong");
  }

  @Test
  void ringBesideBareGround_endsAtItsCells() {
    TileProbabilities p =
        probabilities(
            (x, y) ->
                inside(x, y, 120, 120, WIDTH - 120, HEIGHT - 120)
                    ? SurfaceClass.BARE
                    : SurfaceClass.IO_CELLS);
    PadRing ring =
        new PadRingFinder(p, FEATURES, List.of(DieSide.values()), RingTuning.DEFAULT).find();
    assertEquals(120, ring.left(), 20);
    assertEquals(120, ring.lower(), 20);
  }
}
