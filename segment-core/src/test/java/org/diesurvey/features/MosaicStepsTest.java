package org.diesurvey.features;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import java.util.stream.IntStream;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.tiles.FineMap;
import org.diesurvey.tiles.TileGrid;
import org.junit.jupiter.api.Test;

/** Fields of 75 x 100 px over bare ground, as a stitched photograph shows them, and lattices. */
class MosaicStepsTest {
  private static final int SIDE = 800;

  private interface Grey {
    double at(int x, int y);
  }

  private static boolean own(Grey grey, double period, boolean alongX) {
    Random random = new Random(7);
    GrayRaster g = new GrayRaster(SIDE, SIDE);
    for (int y = 0; y < SIDE; y++) {
      for (int x = 0; x < SIDE; x++) {
        g.set(x, y, (float) (grey.at(x, y) + 0.01 * random.nextGaussian()));
      }
    }
    TileGrid grid = new TileGrid(8, 0.62, SIDE, SIDE);
    FineMap fine = new FineMap(grid);
    fine.fill(g, 0, 0, LevelPart.Tiles.all(grid).asRect());
    int[] middle =
        IntStream.range(0, grid.count())
            .filter(t -> inner(t % grid.columns(), grid.columns()))
            .filter(t -> inner(t / grid.columns(), grid.rows()))
            .toArray();
    return MosaicSteps.own(fine, grid, middle, new DominantPeriods.Found(period, 0.2, alongX, 0.4));
  }

  private static boolean inner(int at, int count) {
    return at > count / 4 && at < 3 * count / 4;
  }

  /** Light falls off by a tenth from one side of each field to the other. */
  private static double fields(int x, int y) {
    return 0.5 * (1 + 0.1 * (y % 75 / 75.0 - 0.5)) * (1 + 0.06 * (x % 100 / 100.0 - 0.5));
  }

  private static double lattice(int x, int y) {
    return x % 100 > 30 && y % 75 > 40 ? 0.56 : 0.48;
  }

  @Test
  void stepsOfAMosaicOverBareGround_areItsOwn() {
    assertTrue(own(MosaicStepsTest::fields, 74.8, false));
    assertTrue(own(MosaicStepsTest::fields, 100.1, true));
  }

  /** Thin lines across the seams, and blocks of layout around the ground. */
  @Test
  void linesAndLayoutBesideTheGround_changeNothing() {
    assertTrue(
        own(
            (x, y) ->
                fields(x, y)
                    - (x % 37 < 2 ? 0.12 : 0)
                    - ((x < 150 || x > 650) && (x / 5 + y / 3) % 3 == 0 ? 0.08 : 0),
            75,
            false));
  }

  @Test
  void latticeOfTheLayout_isEvidence() {
    assertFalse(own(MosaicStepsTest::lattice, 75, false));
    assertFalse(own(MosaicStepsTest::lattice, 100, true));
  }

  /** A memory on fields: its own edges outweigh the seams. */
  @Test
  void latticeUnderAMosaic_isEvidence() {
    assertFalse(own((x, y) -> fields(x, y) + lattice(x, y) - 0.5, 75, false));
  }

  /** Saw teeth that end with their block: ramps of the layout. */
  @Test
  void sawThatEndsWithItsBlock_isEvidence() {
    assertFalse(own((x, y) -> x > 220 && x < 580 ? fields(x, y) : 0.5, 75, false));
  }
}
