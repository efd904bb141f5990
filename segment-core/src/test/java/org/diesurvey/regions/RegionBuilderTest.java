package org.diesurvey.regions;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.diesurvey.classification.DieClass;
import org.diesurvey.classification.SurfaceClass;
import org.diesurvey.classification.TileProbabilities;
import org.diesurvey.classification.UnclearReason;
import org.diesurvey.classification.model.RegionConfidence;
import org.diesurvey.features.DrawnTable;
import org.diesurvey.features.FeatureTable;
import org.diesurvey.preparation.DrawnSource;
import org.diesurvey.preparation.edges.DieSide;
import org.diesurvey.regions.ring.BondPads;
import org.diesurvey.tiles.FineMap;
import org.diesurvey.tiles.TileGrid;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.operation.union.UnaryUnionOp;

/**
 * A die of 640 x 480 um at 1 um/px, its tiles of 8 um labelled by hand. The picture shows nothing,
 * so that edges stay on the tiles and every area can be counted; sums of areas are those of JTS.
 */
class RegionBuilderTest {
  private static final int WIDTH = 640;
  private static final int HEIGHT = 480;
  private static final TileGrid GRID = new TileGrid(8, 1, WIDTH, HEIGHT);
  private static final FeatureTable BLANK =
      DrawnTable.of(DrawnSource.of(WIDTH, HEIGHT, (x, y) -> 0.5), GRID);

  /** The confidence is the mean probability itself. */
  private static final RegionConfidence PLAIN = new RegionConfidence(1, 0, 0, 0, 0, 0);

  private interface Layout {
    SurfaceClass at(double x, double y);
  }

  private static TileProbabilities tiles(double best, Layout layout) {
    float[] p = new float[GRID.count() * SurfaceClass.COUNT];
    for (int t = 0; t < GRID.count(); t++) {
      SurfaceClass c = layout.at((t % GRID.columns() + 0.5) * 8, (t / GRID.columns() + 0.5) * 8);
      for (int k = 0; k < SurfaceClass.COUNT; k++) {
        p[t * SurfaceClass.COUNT + k] =
            (float) (k == c.ordinal() ? best : (1 - best) / (SurfaceClass.COUNT - 1));
      }
    }
    return new TileProbabilities(GRID, p, new float[GRID.count()]);
  }

  private static boolean[] everywhere() {
    boolean[] all = new boolean[GRID.count()];
    Arrays.fill(all, true);
    return all;
  }

  private static List<DieRegion> regions(double best, Layout layout) {
    return RegionBuilder.of(
        tiles(best, layout),
        tiles(best, layout),
        BLANK,
        PLAIN,
        everywhere(),
        List.of(),
        RegionTuning.DEFAULT);
  }

  private static boolean in(double x, double y, double x0, double y0, double x1, double y1) {
    return x > x0 && x < x1 && y > y0 && y < y1;
  }

  /** Two arrays of a memory with a decoder between and control around, a macro, bare ground. */
  private static SurfaceClass blocks(double x, double y) {
    if (in(x, y, 64, 64, 288, 240)) {
      boolean cells = in(x, y, 80, 80, 160, 224) || in(x, y, 192, 80, 272, 224);
      return cells ? SurfaceClass.BIT_CELLS : SurfaceClass.PERIPHERY;
    }
    if (in(x, y, 400, 64, 520, 200)) {
      return SurfaceClass.MACRO;
    }
    return y > 320 ? SurfaceClass.BARE : SurfaceClass.CELL_ROWS;
  }

  private static List<DieClass> classes(List<DieRegion> regions) {
    return regions.stream().map(DieRegion::dieClass).toList();
  }

  /** No place belongs to two regions, and none to no region. */
  private static void assertPartition(List<DieRegion> regions, double area) {
    List<Geometry> all = new ArrayList<>();
    regions.forEach(r -> all.add(r.outline()));
    assertEquals(area, UnaryUnionOp.union(all).getArea(), 1e-6);
    assertEquals(area, all.stream().mapToDouble(Geometry::getArea).sum(), 1e-6);
  }

  @Test
  void blocks_areOutlinedOnTheirTiles_inTheOrderOfClasses() {
    List<DieRegion> r = regions(0.9, RegionBuilderTest::blocks);
    assertEquals(
        List.of(DieClass.MEMORY_ARRAY, DieClass.HARD_MACRO, DieClass.LOGIC, DieClass.UNCLEAR),
        classes(r));
    assertTrue(r.get(0).outline().equalsTopo(TileShapes.rectangle(64, 64, 288, 240)));
    assertTrue(r.get(1).outline().equalsTopo(TileShapes.rectangle(400, 64, 520, 200)));
    assertTrue(r.get(3).outline().equalsTopo(TileShapes.rectangle(0, 320, WIDTH, HEIGHT)));
    assertEquals(2, r.get(2).outline().getNumInteriorRing());
    assertPartition(r, WIDTH * HEIGHT);
    assertEquals(
        List.of(
            Optional.empty(), Optional.empty(), Optional.empty(), Optional.of(UnclearReason.EMPTY)),
        r.stream().map(DieRegion::reason).toList());
  }

  @Test
  void arrays_areTheBitCellsAlone() {
    List<Polygon> arrays = regions(0.9, RegionBuilderTest::blocks).get(0).arrays();
    assertEquals(2, arrays.size());
    assertTrue(
        UnaryUnionOp.union(arrays)
            .equalsTopo(
                TileShapes.rectangle(80, 80, 160, 224)
                    .union(TileShapes.rectangle(192, 80, 272, 224))));
    regions(0.9, RegionBuilderTest::blocks).stream()
        .skip(1)
        .forEach(r -> assertEquals(List.of(), r.arrays()));
  }

  /** 28 x 22 tiles of 0.9 and 0.02 for the five others; periphery counts for the memory too. */
  @Test
  void probabilities_areMeansOverTheTiles() {
    DieRegion memory = regions(0.9, RegionBuilderTest::blocks).get(0);
    assertEquals(28 * 22, memory.tiles());
    assertEquals(0.92, memory.confidence(), 1e-6);
    assertEquals(0.92, memory.probabilities().get(DieClass.MEMORY_ARRAY), 1e-6);
    assertEquals(0.02, memory.probabilities().get(DieClass.HARD_MACRO), 1e-6);
    assertEquals(0.02, memory.probabilities().get(DieClass.PAD_RING), 1e-6);
    DieRegion bare = regions(0.9, RegionBuilderTest::blocks).get(3);
    assertEquals(0.9, bare.confidence(), 1e-6);
    assertEquals(80 * 20, bare.tiles());
    assertEquals(
        0.1,
        bare.probabilities().values().stream().mapToDouble(v -> v).sum(),
        1e-6,
        "without bare");
  }

  /** With a confidence below a guess among four nothing is claimed, the memory's arrays neither. */
  @Test
  void regionLessSureThanAGuess_isUndecided() {
    RegionConfidence low = new RegionConfidence(1, 0, -9, 0, 0, 0);
    List<DieRegion> r =
        RegionBuilder.of(
            tiles(0.9, RegionBuilderTest::blocks),
            tiles(0.9, RegionBuilderTest::blocks),
            BLANK,
            low,
            everywhere(),
            List.of(),
            RegionTuning.DEFAULT);
    DieRegion memory =
        r.stream()
            .filter(u -> u.reason().equals(Optional.of(UnclearReason.UNDECIDED)))
            .findFirst()
            .orElseThrow();
    assertEquals(DieClass.UNCLEAR, memory.dieClass());
    assertEquals(List.of(), memory.arrays());
    assertEquals(224 * 176, memory.outline().getArea(), 1e-6);
    assertTrue(memory.confidence() < 0.25);
    assertEquals(
        List.of(DieClass.HARD_MACRO, DieClass.LOGIC, DieClass.UNCLEAR, DieClass.UNCLEAR),
        classes(r));
    assertTrue(r.get(2).outline().getArea() > r.get(3).outline().getArea(), "largest first");
  }

  /**
   * A block that looks like the periphery of a memory (0.5), else like a macro (0.3), and is none
   * because bit cells lack: of what is left, 0.3 of 0.5 speaks for a macro.
   */
  @Test
  void blockThatIsNoMemory_isJudgedWithoutTheEvidenceForMemory() {
    TileProbabilities p = tiles(0.9, RegionBuilderTest::blocks);
    float[] values = new float[GRID.count() * SurfaceClass.COUNT];
    for (int t = 0; t < GRID.count(); t++) {
      boolean macro = p.best(t) == SurfaceClass.MACRO;
      for (SurfaceClass c : SurfaceClass.values()) {
        values[t * SurfaceClass.COUNT + c.ordinal()] = macro ? ofMacro(c) : p.get(t, c);
      }
    }
    TileProbabilities mixed = new TileProbabilities(GRID, values, new float[GRID.count()]);
    DieRegion block =
        RegionBuilder.of(mixed, mixed, BLANK, PLAIN, everywhere(), List.of(), RegionTuning.DEFAULT)
            .stream()
            .filter(r -> r.dieClass() == DieClass.HARD_MACRO)
            .findFirst()
            .orElseThrow();
    assertEquals(0.6, block.confidence(), 1e-6);
    assertEquals(0, block.probabilities().get(DieClass.MEMORY_ARRAY), 1e-6);
    assertEquals(0.1 / 0.5, block.probabilities().get(DieClass.LOGIC), 1e-6);
  }

  private static float ofMacro(SurfaceClass c) {
    return switch (c) {
      case PERIPHERY -> 0.5f;
      case MACRO -> 0.3f;
      case CELL_ROWS, BARE -> 0.1f;
      default -> 0;
    };
  }

  /** Seven eighths of a rectangle are drawn as the whole, an L of three quarters is not. */
  @Test
  void blockWithANotch_isARectangleOnlyIfItNearlyFillsOne() {
    assertTrue(notched(240, 136).equalsTopo(TileShapes.rectangle(80, 80, 320, 240)));
    assertEquals(240 * 160 - 120 * 80, notched(200, 160).getArea(), 1e-6);
  }

  /** A macro of 240 x 160 um whose lower right corner from a place on is logic. */
  private static Polygon notched(double x0, double y0) {
    double left = x0 == 240 ? 272 : 200;
    double top = x0 == 240 ? 200 : 160;
    return regions(
            0.9,
            (x, y) ->
                in(x, y, 80, 80, 320, 240) && !(x > left && y > top)
                    ? SurfaceClass.MACRO
                    : SurfaceClass.CELL_ROWS)
        .get(0)
        .outline();
  }

  /** A photograph that is turned shows no die in its corners. */
  @Test
  void tilesOffTheDie_belongToNoRegion() {
    boolean[] onDie = everywhere();
    for (int t = 0; t < onDie.length; t++) {
      onDie[t] = t % GRID.columns() + t / GRID.columns() >= 12;
    }
    List<DieRegion> r =
        RegionBuilder.of(
            tiles(0.9, RegionBuilderTest::blocks),
            tiles(0.9, RegionBuilderTest::blocks),
            BLANK,
            PLAIN,
            onDie,
            List.of(),
            RegionTuning.DEFAULT);
    // 12 + 11 + ... + 1 tiles are gone.
    assertPartition(r, WIDTH * HEIGHT - 78 * 64);
  }

  /** Without a die edge pads in the picture are a block like others. */
  @Test
  void ioCellsWithoutADieEdge_areABlock() {
    List<DieRegion> r =
        regions(0.9, (x, y) -> x < 120 ? SurfaceClass.IO_CELLS : SurfaceClass.CELL_ROWS);
    assertEquals(List.of(DieClass.LOGIC, DieClass.PAD_RING), classes(r));
    assertEquals(120 * HEIGHT, r.get(1).outline().getArea(), 1e-6);
    assertEquals(Optional.empty(), r.get(1).bondPads());
  }

  private static final double RING = 104;
  private static final double CHANNEL = 16;

  /** How far a place lies inside the die, um. */
  private static double depth(double x, double y) {
    return Math.min(Math.min(x, y), Math.min(WIDTH - x, HEIGHT - y));
  }

  private static List<DieRegion> withRing(double margin) {
    FineMap drawn = DrawnTable.kept("ring with margin " + margin, () -> ringed(margin));
    FeatureTable picture = DrawnTable.of(drawn, GRID);
    TileProbabilities p =
        tiles(
            0.9,
            (x, y) -> {
              double d = depth(x, y);
              return d < margin
                  ? SurfaceClass.BARE
                  : d < RING + margin ? SurfaceClass.IO_CELLS : SurfaceClass.CELL_ROWS;
            });
    return RegionBuilder.of(
        p, p, picture, PLAIN, everywhere(), List.of(DieSide.values()), RegionTuning.DEFAULT);
  }

  private static FineMap ringed(double margin) {
    return DrawnTable.fine(
        DrawnSource.sampled(
            WIDTH,
            HEIGHT,
            0.01,
            5,
            (x, y) -> {
              double d = depth(x, y);
              if (d < margin || d > RING + margin && d < RING + margin + CHANNEL) {
                return 0.4;
              }
              if (d < RING + margin) {
                return x % 11 < 5 && y % 7 < 4 ? 0.65 : 0.35;
              }
              return y % 8 < 4 && Math.sin(0.9 * x + Math.floor(y / 8)) > 0 ? 0.55 : 0.38;
            }),
        GRID);
  }

  /** The ring goes on half into the channel of 16 um; fine cells of 2 um on each side. */
  @Test
  void ring_liesAroundTheCore() {
    List<DieRegion> r = withRing(0);
    assertEquals(List.of(DieClass.LOGIC, DieClass.PAD_RING), classes(r));
    Polygon ring = r.get(1).outline();
    assertEquals(1, ring.getNumInteriorRing());
    assertEquals(WIDTH * HEIGHT, ring.getEnvelope().getArea(), 1e-6);
    double inner = (WIDTH - 2 * (RING + CHANNEL / 2)) * (HEIGHT - 2 * (RING + CHANNEL / 2));
    assertEquals(inner, WIDTH * HEIGHT - ring.getArea(), 4 * (WIDTH + HEIGHT));
    assertTrue(
        r.get(0)
            .outline()
            .within(ring.getFactory().createPolygon(ring.getInteriorRingN(0).getCoordinates())));
    assertTrue(r.get(1).confidence() > 0.8, "confidence " + r.get(1).confidence());
    assertTrue(r.get(1).probabilities().get(DieClass.PAD_RING) > 0.8);
  }

  @Test
  void bareMarginOutsideTheRing_isUnclear() {
    List<DieRegion> r = withRing(40);
    assertEquals(List.of(DieClass.LOGIC, DieClass.PAD_RING, DieClass.UNCLEAR), classes(r));
    DieRegion margin = r.get(2);
    assertEquals(Optional.of(UnclearReason.EMPTY), margin.reason());
    assertEquals(40 * 2 * (WIDTH + HEIGHT - 80), margin.outline().getArea(), 1e-6);
    assertEquals(0.9, margin.confidence(), 1e-6);
    assertEquals(80 * 60 - 70 * 50, margin.tiles());
    assertEquals(0, margin.outline().intersection(r.get(1).outline()).getArea(), 1e-6);
    assertTrue(r.get(1).probabilities().get(DieClass.PAD_RING) > 0.8);
  }

  /** An array with a nick is drawn as a rectangle, an L of cells as it is; few cells are none. */
  @Test
  void arraysInsideAMemory_areRectanglesIfTheyNearlyAre() {
    Layout nick =
        (x, y) ->
            in(x, y, 64, 64, 288, 288)
                ? in(x, y, 80, 80, 200, 200) && !in(x, y, 176, 176, 200, 200)
                        || in(x, y, 240, 240, 256, 256)
                    ? SurfaceClass.BIT_CELLS
                    : SurfaceClass.PERIPHERY
                : SurfaceClass.CELL_ROWS;
    List<Polygon> arrays = regions(0.9, nick).get(0).arrays();
    assertEquals(1, arrays.size());
    assertTrue(arrays.get(0).equalsTopo(TileShapes.rectangle(80, 80, 200, 200)));
    Layout corner =
        (x, y) ->
            in(x, y, 64, 64, 288, 288)
                ? in(x, y, 80, 80, 272, 272) && !in(x, y, 176, 176, 272, 272)
                    ? SurfaceClass.BIT_CELLS
                    : SurfaceClass.PERIPHERY
                : SurfaceClass.CELL_ROWS;
    arrays = regions(0.9, corner).get(0).arrays();
    assertEquals(1, arrays.size());
    assertEquals(192 * 192 - 96 * 96, arrays.get(0).getArea(), 1e-6);
  }

  /** Pads of 48 um every 80 um, 12 um below the die edge, are counted once for the whole ring. */
  @Test
  void bondPads_areCountedForTheWholeRing() {
    FineMap fine = DrawnTable.kept("ring with pads", RegionBuilderTest::padded);
    TileProbabilities p =
        tiles(0.9, (x, y) -> depth(x, y) < RING ? SurfaceClass.IO_CELLS : SurfaceClass.CELL_ROWS);
    List<DieRegion> r =
        RegionBuilder.of(
            p,
            p,
            DrawnTable.of(fine, GRID),
            PLAIN,
            everywhere(),
            List.of(DieSide.values()),
            RegionTuning.DEFAULT);
    DieRegion ring = r.get(1);
    // Five along each of the long sides, three along the others.
    BondPads pads = ring.bondPads().orElseThrow();
    assertEquals(16, pads.count(), 1);
    assertEquals(80, pads.pitchPx(), 2);
    // The ring is 112 um deep: 80 x 60 tiles without 52 x 32.
    assertEquals(80 * 60 - 52 * 32, ring.tiles(), 200);
    assertEquals(ring.tiles() * 64.0, ring.outline().getArea(), 0.05 * ring.outline().getArea());
  }

  private static FineMap padded() {
    return DrawnTable.fine(
        DrawnSource.sampled(
            WIDTH,
            HEIGHT,
            0.005,
            6,
            (x, y) -> {
              double d = depth(x, y);
              boolean upright = Math.min(x, WIDTH - x) < Math.min(y, HEIGHT - y);
              double along = upright ? y : x;
              double length = upright ? HEIGHT : WIDTH;
              if (d >= RING) {
                return d < RING + CHANNEL
                    ? 0.4
                    : y % 8 < 4 && Math.sin(0.9 * x + Math.floor(y / 8)) > 0 ? 0.55 : 0.38;
              }
              boolean place = along > 120 && along < length - 112;
              if (place && d > 12 && d < 60) {
                return (along - 120) % 80 > 16 && (along - 120) % 80 < 64 ? 0.6 : 0.4;
              }
              return d > 66 ? (x % 6 < 3 ? 0.44 : 0.38) : 0.4;
            }),
        GRID);
  }

  /** A photograph that cuts the die leaves a ring on two sides: two strips, pads told once. */
  @Test
  void ringOnTwoSides_isTwoRegions() {
    FineMap fine = DrawnTable.kept("ring with pads", RegionBuilderTest::padded);
    TileProbabilities p =
        tiles(
            0.9,
            (x, y) ->
                y < RING || y > HEIGHT - RING ? SurfaceClass.IO_CELLS : SurfaceClass.CELL_ROWS);
    List<DieRegion> r =
        RegionBuilder.of(
            p,
            p,
            DrawnTable.of(fine, GRID),
            PLAIN,
            everywhere(),
            List.of(DieSide.UPPER, DieSide.LOWER),
            RegionTuning.DEFAULT);
    assertEquals(List.of(DieClass.LOGIC, DieClass.PAD_RING, DieClass.PAD_RING), classes(r));
    assertEquals(0, r.get(0).outline().intersection(r.get(1).outline()).getArea(), 1e-6);
    assertEquals(WIDTH * 112, r.get(1).outline().getArea(), WIDTH * 4);
    assertEquals(r.get(1).tiles(), r.get(2).tiles());
    assertTrue(r.get(1).bondPads().isPresent() != r.get(2).bondPads().isPresent());
    assertEquals(10, r.get(1).bondPads().or(() -> r.get(2).bondPads()).orElseThrow().count(), 1);
  }
}
