package org.diesurvey.regions;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import org.diesurvey.features.DrawnTable;
import org.diesurvey.features.FineMap;
import org.diesurvey.preparation.DrawnSource;
import org.diesurvey.tiles.TileGrid;
import org.junit.jupiter.api.Test;

/** A drawn die of 1600 x 1300 um at 1 um/px with a ring of 120 um. */
class BondPadFinderTest {
  private static final int WIDTH = 1600;
  private static final int HEIGHT = 1300;
  private static final double DEPTH = 120;
  private static final PadRing RING = new PadRing(DEPTH, DEPTH, DEPTH, DEPTH);

  /**
   * Grey of the ring by depth below the edge and place along a side; sides as in {@link PadRing}.
   */
  private interface Side {
    double grey(int side, double depth, double place);
  }

  private static Optional<BondPads> count(Side side) {
    DrawnSource photo =
        DrawnSource.noisy(
            WIDTH,
            HEIGHT,
            0.01,
            71,
            (x, y) -> {
              double[] depth = {x, y, WIDTH - x, HEIGHT - y};
              int at = 0;
              for (int s = 1; s < 4; s++) {
                at = depth[s] < depth[at] ? s : at;
              }
              double place = at % 2 == 0 ? y : x;
              double length = at % 2 == 0 ? HEIGHT : WIDTH;
              boolean corner = place < DEPTH || place > length - DEPTH;
              if (depth[at] > DEPTH) {
                return y % 8 < 4 ? 0.55 : 0.38;
              }
              return corner ? 0.4 : side.grey(at, depth[at], place - DEPTH);
            });
    TileGrid grid = new TileGrid(8, 1, WIDTH, HEIGHT);
    FineMap fine = DrawnTable.fine(photo, grid);
    return new BondPadFinder(fine, grid.tilePx() / 4).find(RingStrip.of(fine, grid, RING));
  }

  /** A dark pad of 56 um, 10 um below the edge, and a device of fine fingers below it. */
  private static double cell(double depth, double in) {
    if (in < 12 || in > 68) {
      return 0.4;
    }
    if (depth > 10 && depth < 66) {
      return 0.3;
    }
    return depth > 74 && depth < 110 ? (in % 6 < 3 ? 0.6 : 0.45) : 0.4;
  }

  private static int cells(int side, double pitch) {
    return (int) (((side % 2 == 0 ? HEIGHT : WIDTH) - 2 * DEPTH) / pitch);
  }

  /** Gaps wider than any pad: only the pads themselves can be counted. */
  @Test
  void sparsePads_darkOrBright_areCounted() {
    for (double pad : new double[] {0.3, 0.5}) {
      Side sparse =
          (s, d, p) -> {
            double in = p % 210;
            boolean inPad = p < cells(s, 210) * 210 && in > 77 && in < 133 && d > 10 && d < 66;
            return inPad ? pad : 0.4;
          };
      assertEquals(2 * cells(0, 210) + 2 * cells(1, 210), count(sparse).orElseThrow().count());
    }
  }

  @Test
  void padsAtOnePitch_areCounted_andNotTheFingersBelowThem() {
    BondPads pads = count((s, d, p) -> p < cells(s, 80) * 80 ? cell(d, p % 80) : 0.4).orElseThrow();
    assertEquals(2 * cells(0, 80) + 2 * cells(1, 80), pads.count());
    assertTrue(pads.seen());
    assertEquals(80, pads.pitchPx(), 1);
    assertTrue(pads.standardUncertainty() < 0.05 * pads.count());
  }

  @Test
  void sparsePads_withGapsAndBareSides_areCountedOneByOne() {
    SplittableRandom random = new SplittableRandom(72);
    boolean[][] there = new boolean[4][20];
    int truth = 0;
    for (int s = 1; s < 4; s++) {
      for (int i = 0; i < cells(s, 80); i++) {
        there[s][i] = random.nextInt(3) > 0;
        truth += there[s][i] ? 1 : 0;
      }
    }
    BondPads pads =
        count((s, d, p) -> p < 1600 && there[s][(int) (p / 80)] ? cell(d, p % 80) : 0.4)
            .orElseThrow();
    assertEquals(truth, pads.count());
    assertTrue(pads.seen());
  }

  @Test
  void doubleRows_countTwicePerCell() {
    BondPads pads =
        count(
                (s, d, p) -> {
                  boolean across = p % 80 > 16 && p % 80 < 64 && p < cells(s, 80) * 80;
                  boolean down = d > 6 && d < 54 || d > 62 && d < 110;
                  return across && down ? 0.52 : 0.4;
                })
            .orElseThrow();
    assertEquals(2 * (2 * cells(0, 80) + 2 * cells(1, 80)), pads.count(), 4);
  }

  @Test
  void cellsWithoutPads_areCountedAsCells() {
    BondPads pads =
        count(
                (s, d, p) -> {
                  boolean on = p % 80 > 12 && p % 80 < 68 && p < cells(s, 80) * 80;
                  return on && d > 8 && d < 112 ? (d % 16 < 8 ? 0.62 : 0.45) : 0.4;
                })
            .orElseThrow();
    assertEquals(2 * cells(0, 80) + 2 * cells(1, 80), pads.count(), 2);
    assertFalse(pads.seen());
  }

  @Test
  void emptyRing_isNotCounted() {
    assertTrue(count((s, d, p) -> 0.4).isEmpty());
  }

  @Test
  void noStrips_giveNothing() {
    TileGrid grid = new TileGrid(8, 1, 160, 160);
    FineMap fine =
        DrawnTable.fine(DrawnSource.noisy(160, 160, 0.01, 7, (x, y) -> 0.5), grid);
    List<RingStrip> none = RingStrip.of(fine, grid, PadRing.NONE);
    assertTrue(new BondPadFinder(fine, 2).find(none).isEmpty());
  }
}
