package org.diesurvey.regions;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.diesurvey.features.DrawnTable;
import org.diesurvey.preparation.DrawnSource;
import org.diesurvey.tiles.TileGrid;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Polygon;

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

  private static EdgeSnapper snapper(DrawnSource.Grey grey) {
    TileGrid grid = new TileGrid(8, 0.5, SIDE, SIDE);
    return new EdgeSnapper(
        DrawnTable.fine(DrawnSource.noisy(SIDE, SIDE, 0.01, 41, grey), grid), grid);
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
    EdgeSnapper snapper = snapper((x, y) -> within(x, y, 0) ? 0.25 + busy(x, y) : rows(x, y));
    assertBlock(snapper.snap(tiles(7, 9, 22, 21)).getEnvelopeInternal());
  }

  /** A ring-shaped block: the hole's edges move towards the block, not away from it. */
  @Test
  void holeInABlock_isPlacedAsWell() {
    EdgeSnapper snapper =
        snapper(
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
    EdgeSnapper snapper = snapper(EdgeSnapperTest::busy);
    Envelope e = snapper.snap(p).getEnvelopeInternal();
    assertEquals(8 * TILE, e.getMinX(), 2 * TOLERANCE_PX);
    assertEquals(21 * TILE, e.getMaxY(), 2 * TOLERANCE_PX);
  }

  @Test
  void edgeOnTheDiesBorder_staysThere() {
    EdgeSnapper snapper = snapper((x, y) -> x > 3 * TILE && x < 330 ? busy(x, y) : 0.42);
    Envelope e = snapper.snap(tiles(0, 0, 20, 30)).getEnvelopeInternal();
    assertEquals(0, e.getMinX());
    assertEquals(0, e.getMinY());
    assertEquals(SIDE, e.getMaxY());
    assertEquals(330, e.getMaxX(), TOLERANCE_PX);
  }
}
