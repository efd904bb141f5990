package org.diesurvey.regions.ring;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.features.DrawnTable;
import org.diesurvey.preparation.edges.DieSide;
import org.diesurvey.tiles.FineMap;
import org.diesurvey.tiles.TileGrid;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The depth of {@link PadRingFinder} to the tile and to the cell: 120 x 100 tiles of 8 px, evidence
 * without noise, activity given cell by cell (2 px).
 */
class PadRingDepthTest {
  private static final int COLUMNS = 120;
  private static final int ROWS = 100;
  private static final TileGrid GRID = new TileGrid(8, 1, 8 * COLUMNS, 8 * ROWS);

  /** Activity is the same everywhere, so no channel moves the border off the tiles. */
  private static final FineMap EVEN = DrawnTable.cells(GRID, (r, c) -> 0.5, (r, c) -> 1);

  private interface Surface {
    SurfaceClass at(int x, int y);
  }

  /** Rows inside a ring of so many tiles on the left, upper, right and lower side. */
  private static Surface ring(int left, int top, int right, int bottom) {
    return (x, y) ->
        x < left || y < top || x >= COLUMNS - right || y >= ROWS - bottom
            ? SurfaceClass.IO_CELLS
            : SurfaceClass.CELL_ROWS;
  }

  private static PadRing find(TileGrid grid, FineMap fine, List<DieSide> real, Surface surface) {
    float[] p = new float[grid.count() * SurfaceClass.COUNT];
    for (int t = 0; t < grid.count(); t++) {
      SurfaceClass s = surface.at(t % grid.columns(), t / grid.columns());
      for (int k = 0; k < SurfaceClass.COUNT; k++) {
        p[t * SurfaceClass.COUNT + k] = k == s.ordinal() ? 0.9f : 0.02f;
      }
    }
    TileProbabilities probabilities = new TileProbabilities(grid, p, new float[grid.count()]);
    return new PadRingFinder(probabilities, DrawnTable.of(fine, grid), real, RingTuning.DEFAULT)
        .find();
  }

  private static PadRing find(Surface surface) {
    return find(GRID, EVEN, List.of(DieSide.values()), surface);
  }

  @ParameterizedTest
  @CsvSource({"12, 15, 11, 18", "18, 11, 15, 12", "20, 20, 20, 20", "7, 7, 7, 7"})
  void withoutAChannel_theRingEndsAtItsTiles(int left, int top, int right, int bottom) {
    assertEquals(
        new PadRing(8 * left, 8 * top, 8 * right, 8 * bottom),
        find(ring(left, top, right, bottom)));
  }

  /** A bond pad alone takes 50 um: six tiles of 8 um are no ring. */
  @Test
  void ringOfSixTiles_isNone() {
    assertEquals(PadRing.NONE, find(ring(6, 6, 6, 6)));
  }

  /** The last tile is cut: the right side's depth is counted from the die's edge. */
  @Test
  void cutTiles_belongToTheRingAsFarAsTheyGo() {
    TileGrid grid = new TileGrid(8, 1, 8 * COLUMNS - 4, 8 * ROWS - 2);
    FineMap fine = DrawnTable.cells(grid, (r, c) -> 0.5, (r, c) -> 1);
    assertEquals(
        new PadRing(96, 120, 88 - 4, 144 - 2),
        find(grid, fine, List.of(DieSide.values()), ring(12, 15, 11, 18)));
  }

  @Test
  void sidesThatAreNoDieEdge_haveNoRing() {
    assertEquals(
        new PadRing(96, 0, 0, 144),
        find(GRID, EVEN, List.of(DieSide.LEFT, DieSide.LOWER), ring(12, 15, 11, 18)));
  }

  /**
   * A quiet channel of some cells behind a ring of 14 tiles, 112 px: the ring takes half of it, but
   * no more than the frame of an I/O cell, 20 px.
   */
  @ParameterizedTest
  @CsvSource({"8, 8", "16, 16", "28, 20"})
  void channel_isShared(int cells, int px) {
    FineMap fine =
        DrawnTable.cells(
            GRID,
            (r, c) -> 0.5,
            (r, c) -> {
              int d = Math.min(Math.min(r, c), Math.min(4 * ROWS - 1 - r, 4 * COLUMNS - 1 - c));
              return d >= 56 && d < 56 + cells ? 0.05 : 1;
            });
    PadRing ring = find(GRID, fine, List.of(DieSide.values()), ring(14, 14, 14, 14));
    for (double depth : new double[] {ring.left(), ring.upper(), ring.right(), ring.lower()}) {
      assertEquals(112 + px, depth, 2.1);
    }
  }

  /** A channel that is hardly quieter than the ring is none. */
  @Test
  void faintChannel_movesNothing() {
    FineMap fine = DrawnTable.cells(GRID, (r, c) -> 0.5, (r, c) -> c >= 60 && c < 72 ? 0.7 : 1);
    assertEquals(
        112, find(GRID, fine, List.of(DieSide.values()), ring(14, 14, 14, 14)).left(), 1e-9);
  }

  /**
   * Three sides are 20 tiles deep; the fourth shows I/O cells over 10 and drivers, which look like
   * a macro, over the next ten: it is as deep as the others. Where rows stand there it is not.
   */
  @ParameterizedTest
  @CsvSource({"MACRO, 160", "CELL_ROWS, 80"})
  void shallowSide_joinsTheOthersIfNothingSpeaksAgainst(SurfaceClass next, double depth) {
    Surface three = ring(10, 20, 20, 20);
    PadRing r =
        find(
            (x, y) ->
                x >= 10 && x < 20 && three.at(x, y) == SurfaceClass.CELL_ROWS
                    ? next
                    : three.at(x, y));
    assertEquals(depth, r.left(), 1e-9);
    assertEquals(160, r.upper(), 1e-9);
    assertEquals(160, r.right(), 1e-9);
    assertEquals(160, r.lower(), 1e-9);
  }

  /**
   * Macros, rows and bare ground in turns behind the ring, to a channel eight tiles further: no
   * band of drivers, so the ring ends before them. A macro along the whole side is one.
   */
  @ParameterizedTest
  @CsvSource({"18, 112", "50, 176"})
  void macrosBehindTheRing_areNoDrivers(int macros, double depth) {
    PadRing r =
        find(
            (x, y) -> {
              if (x < 14 || y < 14 || x >= COLUMNS - 14 || y >= ROWS - 14) {
                return SurfaceClass.IO_CELLS;
              }
              int place = y % 50;
              boolean rows = place >= macros && place < macros + 12;
              return x >= 22 || place >= macros + 12
                  ? SurfaceClass.BARE
                  : rows ? SurfaceClass.CELL_ROWS : SurfaceClass.MACRO;
            });
    assertEquals(depth, r.left(), 1e-9);
  }

  /** Rows in every I/O cell, 5 tiles of every 10 along a side, are part of the cells. */
  @Test
  void rowsWithinIoCells_belongToTheRing() {
    PadRing r =
        find(
            (x, y) -> {
              SurfaceClass s = ring(14, 14, 14, 14).at(x, y);
              boolean rows = x >= 9 && x < 12 && y > 20 && y < 80 && y % 10 < 4;
              return rows ? SurfaceClass.CELL_ROWS : s;
            });
    assertEquals(112, r.left(), 1e-9);
  }

  /** Drivers behind the ring that end at a channel of bare ground along the whole side. */
  @Test
  void bandOfDriversUpToAChannel_belongsToTheRing() {
    PadRing r =
        find(
            (x, y) -> {
              int d = Math.min(Math.min(x, y), Math.min(COLUMNS - 1 - x, ROWS - 1 - y));
              return d < 12
                  ? SurfaceClass.IO_CELLS
                  : d < 24
                      ? SurfaceClass.MACRO
                      : d < 27 ? SurfaceClass.BARE : SurfaceClass.CELL_ROWS;
            });
    assertEquals(new PadRing(192, 192, 192, 192), r);
  }

  /** Bare ground outside the ring from 40 px on is a margin, of the narrowest side. */
  @ParameterizedTest
  @CsvSource({"4, 0", "5, 40", "8, 64"})
  void bareGroundOutside_isAMargin(int tiles, double margin) {
    PadRing r =
        find(
            (x, y) -> {
              int d = Math.min(Math.min(x, y), Math.min(COLUMNS - 1 - x, ROWS - 1 - y));
              return d < tiles || x < tiles + 3 ? SurfaceClass.BARE : ring(24, 24, 24, 24).at(x, y);
            });
    assertEquals(margin, r.margin(), 1e-9);
    assertEquals(192, r.upper(), 1e-9);
  }
}
