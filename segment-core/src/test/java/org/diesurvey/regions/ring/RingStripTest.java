package org.diesurvey.regions.ring;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Random;
import org.apache.commons.math3.stat.descriptive.DescriptiveStatistics;
import org.diesurvey.features.DrawnTable;
import org.diesurvey.preparation.DrawnSource;
import org.diesurvey.tiles.FineMap;
import org.diesurvey.tiles.TileGrid;
import org.junit.jupiter.api.Test;

class RingStripTest {

  /** Sums from a table of sums, against the statistics of Commons Math. */
  @Test
  void meanAndDeviation_areThoseOfTheRectangle() {
    double[][] grey = new double[9][20];
    Random random = new Random(3);
    for (double[] row : grey) {
      for (int p = 0; p < row.length; p++) {
        row[p] = random.nextDouble();
      }
    }
    RingStrip s = new RingStrip(9, 20, (d, p) -> grey[d][p]);
    for (int[] r : new int[][] {{0, 9, 0, 20}, {2, 5, 3, 11}, {8, 9, 19, 20}}) {
      DescriptiveStatistics cells = new DescriptiveStatistics();
      for (int d = r[0]; d < r[1]; d++) {
        for (int p = r[2]; p < r[3]; p++) {
          cells.addValue(grey[d][p]);
        }
      }
      assertEquals(cells.getMean(), s.mean(r[0], r[1], r[2], r[3]), 1e-12);
      double deviation = Math.sqrt(cells.getPopulationVariance());
      assertEquals(deviation, s.deviation(r[0], r[1], r[2], r[3]), 1e-7);
    }
  }

  /** Grey grows along x by 0.001 and along y by 0.0001 for each cell of 2 px. */
  @Test
  void strips_runFromTheDiesEdgeInwards() {
    TileGrid grid = new TileGrid(8, 1, 400, 240);
    FineMap fine =
        DrawnTable.fine(DrawnSource.of(400, 240, (x, y) -> 0.3 + x / 2000 + y / 20_000), grid);
    List<RingStrip> strips = RingStrip.of(fine, grid, new PadRing(40, 20, 60.9, 16));
    assertEquals(
        List.of("20 x 120", "10 x 200", "30 x 120", "8 x 200"),
        strips.stream().map(s -> s.depth() + " x " + s.length()).toList());
    // The four at depth 3, place 50: (3, 50), (50, 3), (196, 50), (50, 116) in cells.
    double[][] at = {{3, 50}, {50, 3}, {196, 50}, {50, 116}};
    for (int i = 0; i < 4; i++) {
      double expected = 0.3 + (2 * at[i][0] + 1) / 2000 + (2 * at[i][1] + 1) / 20_000;
      assertEquals(expected, strips.get(i).mean(3, 4, 50, 51), 0.003);
    }
    // Below 8 cells no pad fits.
    assertEquals(1, RingStrip.of(fine, grid, new PadRing(15.9, 0, 16, 0)).size());
  }
}
