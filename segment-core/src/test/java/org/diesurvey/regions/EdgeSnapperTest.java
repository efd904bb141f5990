package org.diesurvey.regions;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.diesurvey.features.DrawnTable;
import org.diesurvey.preparation.DrawnSource;
import org.diesurvey.tiles.FineMap;
import org.diesurvey.tiles.TileGrid;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.locationtech.jts.algorithm.distance.DiscreteHausdorffDistance;
import org.locationtech.jts.algorithm.locate.IndexedPointInAreaLocator;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Location;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.geom.util.AffineTransformation;

/** Blocks drawn off the tile borders; 8 um tiles, 0.5 um/px, so 2 um are 4 px and one fine cell. */
class EdgeSnapperTest {
  private static final double TILE = 16;
  private static final double TOLERANCE_PX = 4;
  private static final int SIDE = 480;
  private static final double LEFT = 116.5;
  private static final double TOP = 139;
  private static final double RIGHT = 357.3;
  private static final double BOTTOM = 341.2;

  private static double busy(double x, double y) {
    return x % 6.3 < 3 && y % 5.1 < 3 ? 0.6 : 0.36;
  }

  private static double rows(double x, double y) {
    return y % 9 < 4 && Math.sin(x * 0.7 + Math.floor(y / 9) * 2) > 0 ? 0.52 : 0.4;
  }

  private static boolean within(double x, double y, double margin) {
    return x > LEFT - margin && y > TOP - margin && x < RIGHT + margin && y < BOTTOM + margin;
  }

  private static EdgeSnapper snapper(String name, DrawnSource.Grey grey) {
    TileGrid grid = new TileGrid(8, 0.5, SIDE, SIDE);
    FineMap fine =
        DrawnTable.kept(
            name, () -> DrawnTable.fine(DrawnSource.noisy(SIDE, SIDE, 0.01, 41, grey), grid));
    return new EdgeSnapper(fine, grid, OutlineTuning.DEFAULT);
  }

  private static Polygon tiles(int column0, int row0, int column1, int row1) {
    return TileShapes.rectangle(column0 * TILE, row0 * TILE, column1 * TILE, row1 * TILE);
  }

  private static void assertBlock(Envelope e) {
    assertEquals(LEFT, e.getMinX(), TOLERANCE_PX, "left");
    assertEquals(TOP, e.getMinY(), TOLERANCE_PX, "top");
    assertEquals(RIGHT, e.getMaxX(), TOLERANCE_PX, "right");
    assertEquals(BOTTOM, e.getMaxY(), TOLERANCE_PX, "bottom");
  }

  /** The tiles vote for a block a little too small, or too large, on every side. */
  @Test
  void blockWithAQuietChannel_endsWhereTheChannelBegins() {
    EdgeSnapper snapper =
        snapper(
            "block with a channel",
            (x, y) -> {
              if (within(x, y, 0)) {
                return busy(x, y);
              }
              return within(x, y, 14) ? 0.42 : rows(x, y);
            });
    Polygon tight = snapper.snap(tiles(8, 9, 22, 21));
    assertBlock(tight.getEnvelopeInternal());
    Polygon wide = snapper.snap(tiles(7, 8, 23, 22));
    assertBlock(wide.getEnvelopeInternal());
    assertTrue(wide.isRectangle());
  }

  @Test
  void blockWithoutAChannel_endsAtTheStepOfBrightness() {
    EdgeSnapper snapper =
        snapper("bright block", (x, y) -> within(x, y, 0) ? 0.25 + busy(x, y) : rows(x, y));
    assertBlock(snapper.snap(tiles(7, 9, 22, 21)).getEnvelopeInternal());
  }

  /** A ring-shaped block: the hole's edges move towards the block, not away from it. */
  @Test
  void holeInABlock_isPlacedAsWell() {
    EdgeSnapper snapper =
        snapper(
            "block around a hole",
            (x, y) -> {
              if (!within(x, y, 0)) {
                return busy(x, y);
              }
              return within(x, y, -14) ? rows(x, y) : 0.42;
            });
    Polygon frame = tiles(1, 1, 29, 29);
    Polygon withHole = (Polygon) frame.difference(tiles(8, 8, 22, 22));
    Polygon snapped = snapper.snap(withHole);
    assertEquals(1, snapped.getNumInteriorRing());
    assertBlock(snapped.getInteriorRingN(0).getEnvelopeInternal());
  }

  @Test
  void edgeInEvenTexture_staysWhereTheTilesPutIt() {
    Polygon p = tiles(8, 9, 22, 21);
    EdgeSnapper snapper = snapper("even texture", EdgeSnapperTest::busy);
    Envelope e = snapper.snap(p).getEnvelopeInternal();
    assertEquals(8 * TILE, e.getMinX(), 2 * TOLERANCE_PX);
    assertEquals(21 * TILE, e.getMaxY(), 2 * TOLERANCE_PX);
  }

  @Test
  void edgeOnTheDiesBorder_staysThere() {
    EdgeSnapper snapper =
        snapper("edge at 330 px", (x, y) -> x > 3 * TILE && x < 330 ? busy(x, y) : 0.42);
    Envelope e = snapper.snap(tiles(0, 0, 20, 30)).getEnvelopeInternal();
    assertEquals(0, e.getMinX());
    assertEquals(0, e.getMinY());
    assertEquals(SIDE, e.getMaxY());
    assertEquals(330, e.getMaxX(), TOLERANCE_PX);
  }

  /** An L and its mirror image, judged by the distance of outlines of JTS. */
  @ParameterizedTest
  @ValueSource(booleans = {false, true})
  void blockWithANotch_isFoundOnAllSixSides(boolean mirrored) {
    Polygon truth = notched(LEFT, TOP, RIGHT, BOTTOM, 236.5, 241, mirrored);
    Polygon channel = (Polygon) truth.buffer(14);
    IndexedPointInAreaLocator in = new IndexedPointInAreaLocator(truth);
    IndexedPointInAreaLocator near = new IndexedPointInAreaLocator(channel);
    EdgeSnapper snapper =
        snapper(
            "notched block, mirrored " + mirrored,
            (x, y) -> {
              if (in.locate(new Coordinate(x, y)) != Location.EXTERIOR) {
                return busy(x, y);
              }
              return near.locate(new Coordinate(x, y)) != Location.EXTERIOR ? 0.42 : rows(x, y);
            });
    Polygon onTiles = notched(7 * TILE, 9 * TILE, 22 * TILE, 21 * TILE, 240, 240, mirrored);
    double before = DiscreteHausdorffDistance.distance(truth, onTiles, 0.01);
    double after = DiscreteHausdorffDistance.distance(truth, snapper.snap(onTiles), 0.01);
    assertTrue(before > 6, "before " + before);
    // A corner may be off along both axes.
    assertTrue(after <= TOLERANCE_PX * Math.sqrt(2), "after " + after);
  }

  /** A rectangle whose lower right quarter from a place on is left out, or its mirror image. */
  private static Polygon notched(
      double x0, double y0, double x1, double y1, double nx, double ny, boolean mirrored) {
    Polygon p =
        (Polygon)
            TileShapes.rectangle(x0, y0, x1, y1).difference(TileShapes.rectangle(nx, ny, x1, y1));
    return mirrored
        ? (Polygon)
            AffineTransformation.reflectionInstance(SIDE / 2.0, 0, SIDE / 2.0, SIDE).transform(p)
        : p;
  }

  /** Sides of 16 px, 8 um, are steps of a staircase: nothing tells where they belong. */
  @Test
  void shortEdges_stay() {
    EdgeSnapper snapper =
        snapper("block on quiet ground", (x, y) -> within(x, y, 0) ? busy(x, y) : 0.42);
    Polygon p = tiles(7, 9, 8, 10);
    assertTrue(snapper.snap(p).equalsExact(p), snapper.snap(p).toString());
  }

  private static final TileGrid GRID = new TileGrid(8, 0.5, SIDE, SIDE);

  /** By how many cells of 4 px the left, upper, right, lower edge of a block moves outward. */
  private static int[] moved(FineMap fine, Polygon p) {
    Envelope a = p.getEnvelopeInternal();
    Envelope b = new EdgeSnapper(fine, GRID, OutlineTuning.DEFAULT).snap(p).getEnvelopeInternal();
    return new int[] {
      (int) Math.round((a.getMinX() - b.getMinX()) / 4),
      (int) Math.round((a.getMinY() - b.getMinY()) / 4),
      (int) Math.round((b.getMaxX() - a.getMaxX()) / 4),
      (int) Math.round((b.getMaxY() - a.getMaxY()) / 4)
    };
  }

  private static boolean inside(int r, int c, int x0, int y0, int x1, int y1) {
    return c >= x0 && r >= y0 && c < x1 && r < y1;
  }

  /**
   * Steps of grey alone, cell by cell, where the tiles put the edges at cells 32 and 88: found up
   * to 13 um, seven cells, to either side.
   */
  @ParameterizedTest
  @CsvSource({
    "0, 0, 0, 0",
    "1, 2, 3, 4",
    "-1, -2, -3, -4",
    "5, 6, -5, -6",
    "6, -6, 6, -6",
    "-5, 3, 0, 1"
  })
  void stepOfGrey_isFoundToTheCell(int left, int top, int right, int bottom) {
    FineMap fine =
        DrawnTable.cells(
            GRID,
            (r, c) -> inside(r, c, 32 - left, 32 - top, 88 + right, 88 + bottom) ? 0.7 : 0.4,
            (r, c) -> 0.1);
    assertArrayEquals(new int[] {left, top, right, bottom}, moved(fine, tiles(8, 8, 22, 22)));
  }

  /** The same of activity, and out of reach the edge stays. */
  @Test
  void stepOfActivity_isFoundWithinReach() {
    FineMap fine =
        DrawnTable.cells(GRID, (r, c) -> 0.4, (r, c) -> inside(r, c, 35, 20, 100, 85) ? 0.5 : 0.35);
    assertArrayEquals(new int[] {-3, 0, 0, -3}, moved(fine, tiles(8, 8, 22, 22)));
  }

  /** A quiet channel counts from 60 % of the block's activity down; else the step of grey does. */
  @ParameterizedTest
  @CsvSource({"0.1, 3", "0.55, 3", "0.65, -4"})
  void channel_winsOverAStepIfItIsQuiet(double activity, int cells) {
    FineMap fine =
        DrawnTable.cells(
            GRID,
            (r, c) -> inside(r, c, 36, 36, 84, 84) ? 0.9 : 0.4,
            (r, c) -> inside(r, c, 29, 29, 91, 91) || !inside(r, c, 25, 25, 95, 95) ? 1 : activity);
    assertArrayEquals(new int[] {cells, cells, cells, cells}, moved(fine, tiles(8, 8, 22, 22)));
  }

  /** Of two equal steps the nearer one; a step no larger than the rest of the texture is none. */
  @Test
  void nearerStep_wins_andTextureIsNoStep() {
    FineMap two =
        DrawnTable.cells(
            GRID,
            (r, c) -> (c < 26 ? 0 : c < 34 ? 0.3 : 0.6) + (r < 32 || r >= 88 ? 0.3 : 0),
            (r, c) -> 0.1);
    assertEquals(-2, moved(two, tiles(8, 8, 22, 22))[0]);
    FineMap texture = DrawnTable.cells(GRID, (r, c) -> 0.01 * c + 0.01 * r, (r, c) -> 0.1);
    assertArrayEquals(new int[4], moved(texture, tiles(8, 8, 22, 22)));
  }
}
