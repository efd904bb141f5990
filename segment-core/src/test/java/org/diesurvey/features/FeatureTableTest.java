package org.diesurvey.features;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.concurrent.ForkJoinPool;
import java.util.stream.IntStream;
import org.diesurvey.preparation.DrawnSource;
import org.diesurvey.preparation.PreparedDie;
import org.diesurvey.tiles.TileGrid;
import org.junit.jupiter.api.Test;

class FeatureTableTest {
  /** Rows of uneven cells on the left, a lattice on the right. */
  private static double layout(double x, double y) {
    if (x > 150) {
      return x % 7.3 < 3 && y % 5.2 < 3 ? 0.62 : 0.34;
    }
    return y % 9 < 5 ? 0.5 + 0.08 * Cells.level(x, (long) (y / 9)) : 0.36;
  }

  private static FeatureTable table(DrawnSource source, double pitchUm) {
    PreparedDie die = source.wholeAsDie(false, 1);
    return FeatureTable.extract(
        die, new TileGrid(Math.max(8, 3 * pitchUm), pitchUm, die.width(), die.height()));
  }

  private static FeatureTable table(int width, int height, double pitchUm) {
    return table(DrawnSource.noisy(width, height, 0.02, 31, FeatureTableTest::layout), pitchUm);
  }

  @Test
  void names_areUnique_andAsManyAsTheShippedModelWasTrainedFor() {
    List<String> names = FeatureSchema.CURRENT.names();
    assertEquals(names.size(), new HashSet<>(names).size());
    // A change of this number makes every trained model void.
    assertEquals(GOLDEN_COUNT, names.size());
  }

  private static final int GOLDEN_COUNT = 214;

  /** 44 rows of tiles make two bands; three workers may take them in any order. */
  @Test
  void numberOfThreads_changesNoBit() throws Exception {
    DrawnSource photo = DrawnSource.noisy(300, 352, 0.02, 31, FeatureTableTest::layout);
    FeatureTable one = inPool(1, photo);
    for (int threads : new int[] {2, 3}) {
      FeatureTable other = inPool(threads, photo);
      for (int t = 0; t < one.grid().count(); t++) {
        assertTrue(
            Arrays.equals(one.vectors().of(t), other.vectors().of(t)),
            threads + " threads, tile " + t);
      }
    }
  }

  private static FeatureTable inPool(int threads, DrawnSource photo) throws Exception {
    ForkJoinPool pool = new ForkJoinPool(threads);
    try {
      return pool.submit(() -> table(photo, 1)).get();
    } finally {
      pool.shutdown();
    }
  }

  /** What lies in scratch files is read as it was written. */
  @Test
  void scratchFiles_changeNoBit() {
    DrawnSource photo = DrawnSource.noisy(300, 352, 0.02, 31, FeatureTableTest::layout);
    TileGrid grid = new TileGrid(8, 1, 300, 352);
    PreparedDie die = photo.wholeAsDie(false, 1);
    int[] some = IntStream.range(0, grid.count()).filter(t -> t % 3 > 0).toArray();
    try (FeatureTable held = FeatureTable.extract(die, grid);
        FeatureTable filed = FeatureExtraction.of(TileStatistics.of(die, grid, 11, true), true)) {
      FeatureTable.Vectors a = held.vectors();
      FeatureTable.Vectors b = filed.vectors();
      for (int t = 0; t < grid.count(); t++) {
        assertTrue(Arrays.equals(a.of(t), b.of(t)), "tile " + t);
        assertEquals(a.lattice(t), b.lattice(t));
      }
      assertEquals(held.periods(some), filed.periods(some));
    }
  }

  @Test
  void ordinarySampling_carriesEveryFeature() {
    FeatureTable t = table(240, 200, 0.4);
    for (int i = 0; i < t.grid().count(); i++) {
      for (int f = 0; f < t.vectors().of(i).length; f++) {
        String name = FeatureSchema.CURRENT.names().get(f);
        // A pattern without a period has none to tell.
        assertTrue(Float.isFinite(t.vectors().of(i)[f]) || name.contains("own period"), name);
      }
    }
  }

  /** At 2 um/px the band of 0.5 um and periods below 6 um are not sampled. */
  @Test
  void coarseSampling_leavesFineFeaturesAbsent_notZero() {
    FeatureTable t = table(160, 160, 2);
    Set<String> absent = new HashSet<>();
    for (int f = 0; f < t.vectors().of(0).length; f++) {
      String name = FeatureSchema.CURRENT.names().get(f);
      if (Float.isNaN(t.vectors().of(0)[f]) && !name.contains("own period")) {
        absent.add(name);
      }
    }
    Set<String> expected = new HashSet<>();
    for (String w : new String[] {"w03 ", "w07 ", "w15 "}) {
      for (String direction : new String[] {"firm", "loose"}) {
        for (String um : new String[] {"0.8", "1.6"}) {
          expected.add(w + direction + " peak from " + um + " um");
        }
      }
      for (String kind : new String[] {"energy share", "kurtosis", "skewness"}) {
        expected.add(w + kind + " 0.5 um");
      }
    }
    assertEquals(expected, absent);
  }

  /** Turning the picture by a quarter turn swaps rows and columns: features have no direction. */
  @Test
  void quarterTurn_keepsTheFeatures() {
    int side = 240;
    FeatureTable straight = table(DrawnSource.of(side, side, FeatureTableTest::layout), 0.5);
    FeatureTable turned = table(DrawnSource.of(side, side, (x, y) -> layout(y, x)), 0.5);
    int columns = straight.grid().columns();
    int differing = 0;
    int r = columns / 2;
    for (int c = 3; c < columns - 3; c++) {
      float[] a = straight.vectors().of(r * columns + c);
      float[] b = turned.vectors().of(c * columns + r);
      for (int f = 0; f < a.length; f++) {
        differing += Math.abs(a[f] - b[f]) > 0.1 + 0.1 * Math.abs(a[f]) ? 1 : 0;
      }
    }
    double share = differing / (double) ((columns - 6) * FeatureSchema.CURRENT.size());
    assertTrue(share < 0.06, "share of features that differ: " + share);
  }

  /** Along the rows random cells lose their pattern, a lattice keeps it in both directions. */
  @Test
  void lattice_hasPeaksInBothDirections_rowsInOne() {
    FeatureTable t = table(300, 240, 0.5);
    int columns = t.grid().columns();
    int row = t.grid().rows() / 2 * columns;
    float inRows = lesserPeak(t.vectors().of(row + 3));
    float inLattice = lesserPeak(t.vectors().of(row + columns - 4));
    assertTrue(inLattice > 3 * inRows, inLattice + " in the lattice, " + inRows + " in rows");
  }

  /** The lower of the two directions' peaks between 1.6 and 6.4 um. */
  private static float lesserPeak(float[] row) {
    return Math.min(peak(row, "firm"), peak(row, "loose"));
  }

  private static float peak(float[] row, String direction) {
    List<String> names = FeatureSchema.CURRENT.names();
    return Math.max(
        row[names.indexOf("w07 " + direction + " peak from 1.6 um")],
        row[names.indexOf("w07 " + direction + " peak from 3.2 um")]);
  }

  @Test
  void brightSplash_isDamage_andAnEvenBrightArrayIsNot() {
    FeatureTable t =
        table(
            DrawnSource.noisy(
                400,
                320,
                0.01,
                33,
                (x, y) -> {
                  if (Math.hypot(x - 110, y - 90) < 26) {
                    return 0.97;
                  }
                  boolean array = x > 240 && y > 120;
                  double cell = x % 6 < 3 && y % 8 < 5 ? 0.1 : -0.05;
                  return (array ? 0.62 : 0.4) + cell;
                }),
            0.5);
    int columns = t.grid().columns();
    for (int i = 0; i < t.grid().count(); i++) {
      double x = (i % columns + 0.5) * 16;
      double y = (i / columns + 0.5) * 16;
      double away = Math.hypot(x - 110, y - 90);
      if (away < 16) {
        assertTrue(t.damaged(i), "tile at " + x + ", " + y);
      } else if (away > 26 + 8 + 12) {
        assertFalse(t.damaged(i), "tile at " + x + ", " + y);
      }
    }
  }

  /** One small array, brighter than everything else on the die, is part of the layer. */
  @Test
  void smallBrightArray_isNotDamage() {
    FeatureTable t =
        table(
            DrawnSource.noisy(
                400,
                320,
                0.01,
                35,
                (x, y) -> {
                  double cell = x % 4 < 2 && y % 4 < 2 ? 0.1 : -0.05;
                  boolean small = x > 60 && x < 100 && y > 60 && y < 105;
                  return (small ? 0.72 : y % 48 < 16 ? 0.62 : 0.4) + cell;
                }),
            0.5);
    for (int i = 0; i < t.grid().count(); i++) {
      assertFalse(t.damaged(i), "tile " + i);
    }
  }

  @Test
  void darkBurn_isDamage() {
    FeatureTable t =
        table(
            DrawnSource.noisy(
                300,
                300,
                0.01,
                34,
                (x, y) ->
                    Math.hypot(x - 152, y - 152) < 20
                        ? 0.02
                        : 0.45 + (x % 6 < 3 && y % 8 < 5 ? 0.1 : -0.05)),
            0.5);
    int columns = t.grid().columns();
    int middle = (int) (150 / 16.0);
    assertTrue(t.damaged(middle * columns + middle));
    assertFalse(t.damaged(2 * columns + 2));
  }
}
