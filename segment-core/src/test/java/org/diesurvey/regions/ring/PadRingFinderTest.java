package org.diesurvey.regions.ring;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.SplittableRandom;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.features.DrawnTable;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.preparation.DrawnSource;
import org.diesurvey.preparation.edges.DieSide;
import org.diesurvey.tiles.FineMap;
import org.diesurvey.tiles.TileGrid;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A drawn die of 800 x 700 um at 1 um/px; the probabilities are made up. */
class PadRingFinderTest {
  private static final int WIDTH = 803;
  private static final int HEIGHT = 699;
  private static final double CHANNEL_UM = 18;

  /** A frame to which a margin is added. */
  private static final PadRing MARGIN = new PadRing(1, 1, 1, 1);

  private static boolean inRing(double x, double y, PadRing ring, double further) {
    return x < ring.left() + further
        || y < ring.upper() + further
        || x > WIDTH - ring.right() - further
        || y > HEIGHT - ring.lower() - further;
  }

  private static FeatureTable die(PadRing ring, double channelUm) {
    TileGrid grid = new TileGrid(8, 1, WIDTH, HEIGHT);
    FineMap fine = DrawnTable.kept(ring + " " + channelUm, () -> drawn(ring, channelUm, grid));
    return DrawnTable.of(fine, grid);
  }

  private static FineMap drawn(PadRing ring, double channelUm, TileGrid grid) {
    DrawnSource photo =
        DrawnSource.sampled(
            WIDTH,
            HEIGHT,
            0.01,
            51,
            (x, y) -> {
              if (inRing(x, y, ring, 0) && ring.present()) {
                return x % 11 < 5 && y % 7 < 4 ? 0.65 : 0.35;
              }
              if (inRing(x, y, ring, channelUm) && ring.present()) {
                return 0.4;
              }
              return y % 8 < 4 && Math.sin(0.9 * x + Math.floor(y / 8)) > 0 ? 0.55 : 0.38;
            });
    return DrawnTable.fine(photo, grid);
  }

  /** Two tiles in three are called what they are, the rest at random. */
  private static TileProbabilities probabilities(TileGrid grid, PadRing ring) {
    SplittableRandom random = new SplittableRandom(52);
    float[] p = new float[grid.count() * SurfaceClass.COUNT];
    for (int t = 0; t < grid.count(); t++) {
      double x = (t % grid.columns() + 0.5) * 8;
      double y = (t / grid.columns() + 0.5) * 8;
      boolean io = ring.present() && inRing(x, y, ring, 0);
      boolean bare = inRing(x, y, MARGIN, ring.margin() - MARGIN.left()) && ring.margin() > 0;
      int best =
          bare
              ? SurfaceClass.BARE.ordinal()
              : io ? SurfaceClass.IO_CELLS.ordinal() : SurfaceClass.CELL_ROWS.ordinal();
      if (!bare && random.nextInt(3) == 0) {
        best = random.nextInt(SurfaceClass.COUNT);
      }
      for (int k = 0; k < SurfaceClass.COUNT; k++) {
        p[t * SurfaceClass.COUNT + k] = k == best ? 0.75f : 0.05f;
      }
    }
    return new TileProbabilities(grid, p, new float[grid.count()]);
  }

  private static PadRing found(PadRing truth) {
    return found(truth, CHANNEL_UM);
  }

  private static PadRing found(PadRing truth, double channelUm) {
    FeatureTable features = die(truth, channelUm);
    return new PadRingFinder(
            probabilities(features.grid(), truth),
            features,
            List.of(DieSide.values()),
            RingTuning.DEFAULT)
        .find();
  }

  /**
   * I/O cells are taken to end in the channel, at most half of it beyond the last device (9 of 18
   * um); one fine cell of 2 um more for the blur.
   */
  private static void assertDepth(double truth, double found, String side) {
    assertTrue(
        found > truth - 4 && found < truth + CHANNEL_UM / 2 + 3,
        side + ": " + truth + " um was found as " + found);
  }

  @Test
  void ringOfFourUnequalSides_isFoundOnEverySide() {
    PadRing truth = new PadRing(97, 121, 84.5, 142);
    PadRing found = found(truth);
    assertDepth(truth.left(), found.left(), "left");
    assertDepth(truth.upper(), found.upper(), "top");
    assertDepth(truth.right(), found.right(), "right");
    assertDepth(truth.lower(), found.lower(), "bottom");
  }

  /** Half of the quiet strip belongs to the I/O cells, but no more than their frame of 20 um. */
  @ParameterizedTest(name = "channel of {0} um")
  @CsvSource({"18, 9", "34, 17", "54, 20"})
  void quietStripBesideTheRing_isShared(double channelUm, double frameUm) {
    PadRing truth = new PadRing(97, 121, 84.5, 142);
    PadRing found = found(truth, channelUm);
    assertEquals(truth.left() + frameUm, found.left(), 3.5);
    assertEquals(truth.upper() + frameUm, found.upper(), 3.5);
    assertEquals(truth.right() + frameUm, found.right(), 3.5);
    assertEquals(truth.lower() + frameUm, found.lower(), 3.5);
  }

  @Test
  void ringOnTwoSides_isNotMadeUpOnTheOthers() {
    PadRing found = found(new PadRing(0, 110, 0, 95));
    assertEquals(0, found.left());
    assertEquals(0, found.right());
    assertDepth(110, found.upper(), "top");
    assertDepth(95, found.lower(), "bottom");
  }

  @Test
  void dieOfLogicAlone_hasNoRing() {
    assertFalse(found(PadRing.NONE).present());
  }

  @ParameterizedTest(name = "bare over {0} um")
  @CsvSource({"0, 0", "24, 0", "64, 64"})
  void wideBareGroundOutsideTheRing_isNoPartOfIt(double bareUm, double marginUm) {
    PadRing found = found(new PadRing(177, 181, 164.5, 172, bareUm));
    assertEquals(marginUm, found.margin());
    assertDepth(177, found.left(), "left");
    assertDepth(172, found.lower(), "bottom");
  }
}
