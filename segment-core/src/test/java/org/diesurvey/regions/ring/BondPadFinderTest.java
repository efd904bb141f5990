package org.diesurvey.regions.ring;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import org.diesurvey.features.DrawnTable;
import org.diesurvey.preparation.DrawnSource;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.tiles.FineMap;
import org.diesurvey.tiles.TileGrid;
import org.diesurvey.vision.Components;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

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

  private static Optional<BondPads> count(String name, Side side) {
    TileGrid grid = new TileGrid(8, 1, WIDTH, HEIGHT);
    FineMap fine = DrawnTable.kept(name, () -> DrawnTable.fine(photo(side), grid));
    return new BondPadFinder(fine, grid.tilePx() / 4).find(RingStrip.of(fine, grid, RING));
  }

  private static DrawnSource photo(Side side) {
    return DrawnSource.sampled(
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
      assertEquals(
          2 * cells(0, 210) + 2 * cells(1, 210),
          count("sparse pads of " + pad, sparse).orElseThrow().count());
    }
  }

  @Test
  void padsAtOnePitch_areCounted_andNotTheFingersBelowThem() {
    BondPads pads =
        count("pads at one pitch", (s, d, p) -> p < cells(s, 80) * 80 ? cell(d, p % 80) : 0.4)
            .orElseThrow();
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
        count(
                "sparse pads",
                (s, d, p) -> p < 1600 && there[s][(int) (p / 80)] ? cell(d, p % 80) : 0.4)
            .orElseThrow();
    assertEquals(truth, pads.count());
    assertTrue(pads.seen());
  }

  @Test
  void doubleRows_countTwicePerCell() {
    BondPads pads =
        count(
                "double rows",
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
                "cells without pads",
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
    assertTrue(count("empty ring", (s, d, p) -> 0.4).isEmpty());
  }

  @Test
  void noStrips_giveNothing() {
    TileGrid grid = new TileGrid(8, 1, 160, 160);
    FineMap fine = DrawnTable.fine(DrawnSource.noisy(160, 160, 0.01, 7, (x, y) -> 0.5), grid);
    List<RingStrip> none = RingStrip.of(fine, grid, PadRing.NONE);
    assertTrue(new BondPadFinder(fine, 2).find(none).isEmpty());
  }

  private static BondPadFinder finder() {
    TileGrid grid = new TileGrid(8, 1, 80, 80);
    FineMap fine = DrawnTable.fine(DrawnSource.of(80, 80, (x, y) -> 0.5), grid);
    return new BondPadFinder(fine, 2);
  }

  /** A side of cells of 2 um with square pads that begin at given places, and noise. */
  private static RingStrip strip(int length, SplittableRandom random, boolean[] starts, int width) {
    double[][] grey = new double[44][length];
    for (double[] row : grey) {
      for (int p = 0; p < length; p++) {
        row[p] = 0.4 + 0.004 * random.nextGaussian();
      }
    }
    for (int p = 0; p < length; p++) {
      if (starts[p]) {
        for (int d = 6; d < 6 + width; d++) {
          for (int k = p; k < p + width; k++) {
            grey[d][k] += 0.2;
          }
        }
      }
    }
    return new RingStrip(44, length, (d, p) -> grey[d][p]);
  }

  /**
   * Pads of several sizes at random distances, gaps at least as wide as a pad, counted by OpenCV as
   * well: connected components of what is brighter than half way.
   */
  @ParameterizedTest(name = "pads of {0} cells")
  @ValueSource(ints = {14, 20, 30})
  void unevenPads_areAsManyAsOpenCvCounts(int width) {
    SplittableRandom random = new SplittableRandom(73 + width);
    List<RingStrip> strips = new java.util.ArrayList<>();
    int counted = 0;
    for (int side = 0; side < 4; side++) {
      boolean[] starts = new boolean[700];
      for (int p = 20; p + 2 * width < 700; p += 2 * width + random.nextInt(2 * width)) {
        starts[p] = true;
      }
      RingStrip s = strip(700, random, starts, width);
      strips.add(s);
      LabelRaster bright = new LabelRaster(s.length(), s.depth());
      for (int d = 0; d < s.depth(); d++) {
        for (int p = 0; p < s.length(); p++) {
          bright.set(p, d, s.mean(d, d + 1, p, p + 1) > 0.5 ? 1 : 0);
        }
      }
      counted += Components.label(bright).components().size();
    }
    BondPads pads = finder().find(strips).orElseThrow();
    assertEquals(counted, pads.count(), 2 * pads.standardUncertainty());
    assertTrue(pads.seen());
    assertTrue(pads.standardUncertainty() < 0.05 * counted, "u " + pads.standardUncertainty());
  }

  /** Five pads on all sides together make no ring, six do if they cover enough of it. */
  @ParameterizedTest(name = "{0} pads")
  @CsvSource({"5, false", "6, true"})
  void fewPads_makeNoRing(int pads, boolean ring) {
    boolean[] starts = new boolean[400];
    for (int i = 0; i < pads; i++) {
      starts[20 + 60 * i] = true;
    }
    RingStrip s = strip(400, new SplittableRandom(9), starts, 30);
    Optional<BondPads> found = finder().find(List.of(s));
    assertEquals(ring, found.isPresent());
    found.ifPresent(
        p -> {
          assertEquals(6, p.count());
          // 60 cells of 2 px.
          assertEquals(120, p.pitchPx(), 2);
          assertEquals(0.03 * 6, p.standardUncertainty(), 1e-9);
        });
  }

  /** Pads of 30 cells every 200 cover 15 % of the sides: too little to be told from chance. */
  @Test
  void padsThatCoverHardlyAnything_areNotCounted() {
    boolean[] starts = new boolean[2000];
    for (int i = 0; i < 9; i++) {
      starts[20 + 200 * i] = true;
    }
    RingStrip s = strip(2000, new SplittableRandom(9), starts, 30);
    assertTrue(finder().find(List.of(s)).isEmpty());
  }

  /**
   * Fainter pads: those of less than a third of the contrast are not counted, those of half are
   * doubtful unless they stand in step with clear ones.
   */
  @ParameterizedTest(name = "contrast {0}, at {1}")
  @CsvSource({"0.25, 0, 9", "0.5, 17, 9", "0.5, 0, 10", "0.9, 17, 10"})
  void faintPad_countsByItsContrastAndPlace(double contrast, int off, int count) {
    double[] grey = new double[800];
    java.util.Arrays.fill(grey, 0.4);
    for (int i = 0; i < 10; i++) {
      int at = 20 + 60 * i + (i == 9 ? off : 0);
      for (int k = at; k < at + 30; k++) {
        grey[k] = 0.4 + 0.2 * (i == 9 ? contrast : 1);
      }
    }
    RingStrip s = new RingStrip(44, 800, (d, p) -> d < 6 || d > 36 ? 0.4 : grey[p]);
    BondPads pads = finder().find(List.of(s)).orElseThrow();
    assertEquals(count, pads.count());
    double doubtful = contrast == 0.5 && off > 0 ? 0.5 : 0;
    assertEquals(
        Math.hypot(doubtful, 0.03 * count), pads.standardUncertainty(), 1e-9, "half a pad");
  }

  /** Ten places of 20 cells at a pitch of 40, each bright from one depth to another of 60. */
  private static BondPads places(double grain, int... depths) {
    RingStrip s =
        new RingStrip(
            60,
            440,
            (d, p) -> {
              int in = (p + 380) % 40;
              boolean pad = false;
              for (int k = 0; k < depths.length; k += 2) {
                pad |= d >= depths[k] && d < depths[k + 1];
              }
              double rough = (d + p) % 2 == 0 ? grain : -grain;
              return pad && in < 20 && p >= 20 && p < 420 ? 0.6 + rough : 0.4;
            });
    return finder().find(List.of(s)).orElseThrow();
  }

  /**
   * A pad is even and ends on three sides: at the die's edge and at the end of the ring one side
   * cannot be seen; of a bar over the whole depth two cannot.
   */
  @ParameterizedTest(name = "from {0} to {1}, grain {2}")
  @CsvSource({
    "10, 30, 0, true",
    "0, 20, 0, true",
    "40, 60, 0, true",
    "0, 60, 0, false",
    "10, 30, 0.05, true",
    "10, 30, 0.12, false",
    "12, 28, 0, true"
  })
  void placesAreSeenAsPads_ifEvenWithThreeEnds(int from, int to, double grain, boolean seen) {
    BondPads pads = places(grain, from, to);
    assertEquals(10, pads.count());
    assertEquals(seen, pads.seen());
    assertEquals((seen ? 0.03 : 0.1) * 10, pads.standardUncertainty(), 1e-9);
    assertEquals(80, pads.pitchPx(), 3);
  }

  /** A second line of pads six cells below the first counts too. */
  @Test
  void secondLineBesideTheFirst_counts() {
    BondPads pads = places(0, 4, 24, 30, 50);
    assertEquals(20, pads.count());
    assertTrue(pads.seen());
  }

  /** Most places at one pitch have it; where distances differ there is none. */
  @Test
  void unevenPlaces_haveNoUsualPitch() {
    boolean[] starts = new boolean[700];
    for (int i = 0, p = 20; i < 10; i++, p += 36 + 9 * i) {
      starts[Math.min(p, 660)] = p < 660;
    }
    RingStrip s = strip(700, new SplittableRandom(3), starts, 30);
    BondPads pads = finder().find(List.of(s)).orElseThrow();
    assertEquals(0, pads.pitchPx());
  }
}
