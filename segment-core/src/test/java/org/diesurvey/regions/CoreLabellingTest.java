package org.diesurvey.regions;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.Map;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.features.DrawnTable;
import org.diesurvey.preparation.DrawnSource;
import org.diesurvey.tiles.FineMap;
import org.diesurvey.tiles.TileGrid;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * 60 x 50 tiles of 8 um with evidence made up tile by tile on a picture that shows nothing. Places
 * below are in tiles; a tile is 64 um2.
 */
class CoreLabellingTest {
  private static final int COLUMNS = 60;
  private static final int ROWS = 50;
  private static final TileGrid GRID = new TileGrid(8, 1, 8 * COLUMNS, 8 * ROWS);
  private static final FineMap BLANK =
      DrawnTable.fine(DrawnSource.of(8 * COLUMNS, 8 * ROWS, (x, y) -> 0.5), GRID);

  private final SurfaceClass[] evidence = new SurfaceClass[GRID.count()];
  private final double[] sure = new double[GRID.count()];
  private final boolean[] damaged = new boolean[GRID.count()];
  private final boolean[] inside = new boolean[GRID.count()];
  private RegionTuning tuning = RegionTuning.DEFAULT;

  CoreLabellingTest() {
    Arrays.fill(evidence, SurfaceClass.CELL_ROWS);
    Arrays.fill(sure, 0.9);
    Arrays.fill(inside, true);
  }

  private static int tile(int x, int y) {
    return y * COLUMNS + x;
  }

  private void box(SurfaceClass c, int x, int y, int w, int h) {
    box(c, x, y, w, h, 0.9);
  }

  private void box(SurfaceClass c, int x, int y, int w, int h, double p) {
    for (int t = 0; t < evidence.length; t++) {
      if (t % COLUMNS >= x && t % COLUMNS < x + w && t / COLUMNS >= y && t / COLUMNS < y + h) {
        evidence[t] = c;
        sure[t] = p;
      }
    }
  }

  private CoreLabelling labels(boolean ioAllowed) {
    float[] p = new float[GRID.count() * SurfaceClass.COUNT];
    for (int t = 0; t < evidence.length; t++) {
      for (int k = 0; k < SurfaceClass.COUNT; k++) {
        boolean own = k == evidence[t].ordinal();
        p[t * SurfaceClass.COUNT + k] =
            (float) (own ? sure[t] : (1 - sure[t]) / (SurfaceClass.COUNT - 1));
      }
    }
    return CoreLabelling.of(
        new TileProbabilities(GRID, p, new float[GRID.count()]),
        DrawnTable.of(BLANK, GRID, damaged),
        inside,
        ioAllowed,
        tuning);
  }

  /** How many tiles have which label. */
  private Map<SurfaceClass, Integer> counts() {
    CoreLabelling labels = labels(true);
    Map<SurfaceClass, Integer> counts = new EnumMap<>(SurfaceClass.class);
    for (int t = 0; t < evidence.length; t++) {
      if (labels.label(t) != CoreLabelling.OUTSIDE) {
        counts.merge(SurfaceClass.values()[labels.label(t)], 1, Integer::sum);
      }
    }
    return counts;
  }

  private int count(SurfaceClass c) {
    return counts().getOrDefault(c, 0);
  }

  /** A macro is a block from 380 um2 on: six tiles. */
  @ParameterizedTest
  @CsvSource({"1, 1, 0", "2, 2, 0", "3, 3, 9", "8, 7, 56"})
  void macroOfFewDevices_isNone(int w, int h, int tiles) {
    box(SurfaceClass.MACRO, 20, 20, w, h);
    assertEquals(tiles, count(SurfaceClass.MACRO));
  }

  /** Bare ground is told from 6000 um2 on: 94 tiles; below it belongs to what surrounds it. */
  @ParameterizedTest
  @CsvSource({"9, 10, 0", "10, 10, 100"})
  void smallBareGround_isNone(int w, int h, int tiles) {
    box(SurfaceClass.BARE, 20, 20, w, h);
    assertEquals(tiles, count(SurfaceClass.BARE));
  }

  /** Rows below 2700 um2, 42 tiles, inside a macro are the macro's. */
  @ParameterizedTest
  @CsvSource({"6, 6, 0", "14, 14, 196"})
  void pinholesOfRows_areFilled(int w, int h, int tiles) {
    box(SurfaceClass.MACRO, 10, 10, 30, 30);
    box(SurfaceClass.CELL_ROWS, 20, 20, w, h);
    assertEquals(COLUMNS * ROWS - 900 + tiles, count(SurfaceClass.CELL_ROWS));
  }

  /** An array has at least 900 um2, 14 tiles; less is no memory. */
  @ParameterizedTest
  @CsvSource({"3, 4, 0", "4, 4, 16", "10, 8, 80"})
  void fewBitCells_areNoMemory(int w, int h, int tiles) {
    box(SurfaceClass.BIT_CELLS, 20, 20, w, h);
    assertEquals(tiles, count(SurfaceClass.BIT_CELLS));
  }

  /**
   * Of some memories hardly any bit cell is seen: 2500 um2, 39 tiles, of sure periphery are one.
   */
  @ParameterizedTest
  @CsvSource({"0.9, 10, 8, 80", "0.9, 7, 5, 0", "0.5, 10, 8, 0"})
  void peripheryAlone_isAMemoryIfItIsLargeAndSure(double p, int w, int h, int tiles) {
    box(SurfaceClass.PERIPHERY, 20, 20, w, h, p);
    assertEquals(tiles, count(SurfaceClass.PERIPHERY));
  }

  @Test
  void peripheryBesideBitCells_isAMemoryHoweverUnsure() {
    box(SurfaceClass.PERIPHERY, 20, 20, 10, 8, 0.5);
    box(SurfaceClass.BIT_CELLS, 20, 28, 10, 8);
    assertEquals(80, count(SurfaceClass.PERIPHERY), 2);
    assertEquals(80, count(SurfaceClass.BIT_CELLS), 2);
  }

  /** Rows do not stand inside a memory, but between two of them. */
  @Test
  void rowsInsideAMemory_areItsCells_streetsBetweenTwoAreNot() {
    box(SurfaceClass.BIT_CELLS, 10, 10, 20, 20);
    box(SurfaceClass.CELL_ROWS, 18, 18, 4, 4);
    assertEquals(400, count(SurfaceClass.BIT_CELLS));
    box(SurfaceClass.BIT_CELLS, 34, 10, 20, 20);
    assertEquals(800, count(SurfaceClass.BIT_CELLS));
  }

  /** A macro that abuts a memory stays one, however small and unsure it is beside it. */
  @ParameterizedTest
  @CsvSource({"0.6, 5", "0.9, 5", "0.6, 28"})
  void macroBesideAMemory_isAMacro(double p, int width) {
    box(SurfaceClass.BIT_CELLS, 10, 10, 20, 10);
    box(SurfaceClass.MACRO, 30, 10, width, 10, p);
    Map<SurfaceClass, Integer> counts = counts();
    // Where evidence is weak the two meet a tile off.
    assertEquals(10 * width, counts.getOrDefault(SurfaceClass.MACRO, 0), 10);
    assertEquals(200, counts.get(SurfaceClass.BIT_CELLS), 10);
    assertEquals(COLUMNS * ROWS - 200 - width * 10, counts.get(SurfaceClass.CELL_ROWS), 5);
  }

  /** A court of logic inside a ring of memories: holes beyond 0.15 of the memory stay. */
  @ParameterizedTest
  @CsvSource({"6, 0", "12, 144"})
  void courtInsideAMemory_isLogicIfItIsLarge(int side, int rows) {
    box(SurfaceClass.BIT_CELLS, 10, 10, 20, 20);
    box(SurfaceClass.CELL_ROWS, 14, 14, side, side);
    assertEquals(COLUMNS * ROWS - 400 + rows, count(SurfaceClass.CELL_ROWS));
  }

  /** Damaged tiles take no part and get the label around them. */
  @Test
  void damagedTiles_areCoveredByTheirSurroundings() {
    box(SurfaceClass.MACRO, 10, 10, 20, 20);
    box(SurfaceClass.BIT_CELLS, 15, 15, 6, 6);
    box(SurfaceClass.BIT_CELLS, 40, 10, 6, 6);
    assertTrue(count(SurfaceClass.BIT_CELLS) >= 72);
    for (int y = 15; y < 21; y++) {
      Arrays.fill(damaged, tile(15, y), tile(21, y), true);
    }
    Map<SurfaceClass, Integer> counts = counts();
    assertEquals(400, counts.get(SurfaceClass.MACRO));
    assertEquals(36, counts.get(SurfaceClass.BIT_CELLS));
  }

  @Test
  void tilesOutsideTheCore_getNoLabel() {
    box(SurfaceClass.MACRO, 0, 0, 20, 20);
    for (int t = 0; t < inside.length; t++) {
      inside[t] = t % COLUMNS >= 10;
    }
    CoreLabelling labels = labels(true);
    for (int t = 0; t < inside.length; t++) {
      assertEquals(!inside[t], labels.label(t) == CoreLabelling.OUTSIDE, "tile " + t);
    }
    assertEquals(200, count(SurfaceClass.MACRO));
  }

  /** Inside a ring there are no I/O cells: what looks like them is a macro. */
  @Test
  void ioCellsInsideARing_areAMacro() {
    box(SurfaceClass.IO_CELLS, 20, 20, 10, 10);
    assertEquals(100, count(SurfaceClass.IO_CELLS));
    CoreLabelling labels = labels(false);
    assertEquals(SurfaceClass.MACRO.ordinal(), labels.label(tile(25, 25)));
    assertEquals(SurfaceClass.MACRO.ordinal(), labels.label(tile(20, 20)));
    assertEquals(SurfaceClass.CELL_ROWS.ordinal(), labels.label(tile(19, 20)));
  }

  /** One doubtful tile among eight of another class gives way, one without doubt does not. */
  @Test
  void singleTiles_giveWayToTheirNeighbours() {
    box(SurfaceClass.BIT_CELLS, 10, 10, 10, 10);
    box(SurfaceClass.PERIPHERY, 14, 14, 1, 1);
    assertEquals(100, count(SurfaceClass.BIT_CELLS));
  }

  /** Devices in a quarter of a block make it a macro; fewer leave it bare. */
  @ParameterizedTest
  @CsvSource({"6, 12, 144", "2, 0, 0"})
  void bareGroundWithDevices_isAMacroFromAQuarterOn(int w, int h, int macro) {
    box(SurfaceClass.BARE, 20, 20, 12, 12);
    box(SurfaceClass.MACRO, 23, 20, w, h);
    assertEquals(macro, count(SurfaceClass.MACRO));
    assertEquals(144 - macro, count(SurfaceClass.BARE));
  }

  private void tune(String name, double factor) {
    tuning =
        RegionTuning.DEFAULT.values().stream()
            .filter(v -> v.name().equals(name))
            .findFirst()
            .orElseThrow()
            .times(factor);
  }

  /** Other limits: macros of 760 um2, memories of half sure periphery, courts that are filled. */
  @Test
  void limitsOfMacrosAndMemories_areThoseOfTheTuning() {
    box(SurfaceClass.MACRO, 20, 20, 3, 3);
    tune("macros.leastUm2", 2);
    assertEquals(0, count(SurfaceClass.MACRO));
    box(SurfaceClass.PERIPHERY, 40, 32, 12, 12, 0.45);
    assertEquals(0, count(SurfaceClass.PERIPHERY));
    tune("memories.surelyMemory", 0.8);
    assertEquals(144, count(SurfaceClass.PERIPHERY), 4, "but for the corners");
    box(SurfaceClass.BIT_CELLS, 10, 10, 20, 20);
    box(SurfaceClass.CELL_ROWS, 14, 14, 12, 12);
    box(SurfaceClass.CELL_ROWS, 40, 32, 12, 12);
    assertEquals(COLUMNS * ROWS - 400 + 144, count(SurfaceClass.CELL_ROWS));
    tune("memories.holes", 4);
    assertEquals(COLUMNS * ROWS - 400, count(SurfaceClass.CELL_ROWS));
  }
}
