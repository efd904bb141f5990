package org.diesurvey.features;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.diesurvey.features.FeatureSchema.Direction;
import org.diesurvey.features.FeatureSchema.OwnPeriod;
import org.diesurvey.features.FeatureSchema.Window;
import org.diesurvey.tiles.TileGrid;
import org.junit.jupiter.api.Test;

/** Tables whose own periods are set by hand. */
class RowsOfTheDieTest {
  private static final TileGrid GRID = new TileGrid(8, 0.5, 160, 160);

  private static void periodic(float[] row, Direction d, double rise, double um) {
    row[FeatureSchema.column(Window.MIDDLE, d, OwnPeriod.RISE)] = (float) rise;
    row[FeatureSchema.column(Window.MIDDLE, d, OwnPeriod.LAG)] =
        (float) (Math.log(um) / Math.log(2));
  }

  /** Half of the tiles are rows of 7.2 um, a quarter a lattice of 2 by 3 um. */
  private static float[][] rowsAndLattice() {
    float[][] rows = new float[GRID.count()][FeatureSchema.CURRENT.size()];
    for (int t = 0; t < rows.length; t++) {
      if (t % 4 < 2) {
        periodic(rows[t], Direction.FIRM, 0.8, 7.2);
      } else if (t % 4 == 2) {
        periodic(rows[t], Direction.FIRM, 1.5, 2);
        periodic(rows[t], Direction.LOOSE, 1.4, 3);
      }
    }
    return rows;
  }

  private static RowsOfTheDie found(float[][] rows) {
    RowsOfTheDie.Evidence evidence = new RowsOfTheDie.Evidence(rows.length);
    for (int t = 0; t < rows.length; t++) {
      evidence.set(t, rows[t], 0);
    }
    return RowsOfTheDie.of(evidence);
  }

  @Test
  void period_isThatOfTheOneWayPatterns() {
    RowsOfTheDie found = found(rowsAndLattice());
    assertEquals(7.2, Math.pow(2, found.logLag()), 0.4);
  }

  @Test
  void latticePeriods_areToldOverTheRows() {
    float[][] rows = rowsAndLattice();
    found(rows).write(rows[2]);
    float over = rows[2][FeatureSchema.column(Window.MIDDLE, Direction.FIRM, OwnPeriod.OVER_ROWS)];
    assertEquals(Math.log(2 / 7.2) / Math.log(2), over, 0.1);
  }

  @Test
  void aDieWithoutRows_hasNoMeasure() {
    float[][] rows = new float[GRID.count()][FeatureSchema.CURRENT.size()];
    for (float[] row : rows) {
      periodic(row, Direction.FIRM, 1.5, 2);
      periodic(row, Direction.LOOSE, 1.4, 3);
    }
    assertTrue(Float.isNaN(found(rows).logLag()));
  }
}
