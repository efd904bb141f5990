package org.diesurvey.regions;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.diesurvey.tiles.TileGrid;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Polygon;

class TileShapesTest {
  /** 10 x 8 tiles of 25.8 px; the last row and column are cut by the die's edge. */
  private static final TileGrid GRID = new TileGrid(8, 0.31, 250, 200);

  private static List<Polygon> all(TileShapes.TileSet set) {
    return TileShapes.polygons(GRID, 0, GRID.rows(), 0, GRID.columns(), set);
  }

  @Test
  void allTiles_areTheDieItself() {
    List<Polygon> p = all((r, c) -> true);
    assertEquals(1, p.size());
    assertEquals(250.0 * 200, p.get(0).getArea(), 1e-6);
    assertEquals(2 * (250 + 200), p.get(0).getLength(), 1e-6);
  }

  @Test
  void ringOfTiles_hasAHole_andTheAreaOfItsTiles() {
    List<Polygon> p = all((r, c) -> r >= 1 && r <= 4 && c >= 2 && c <= 6 && !(r == 2 && c == 4));
    assertEquals(1, p.size());
    assertEquals(1, p.get(0).getNumInteriorRing());
    double tile = Math.pow(8 / 0.31, 2);
    assertEquals(19 * tile, p.get(0).getArea(), 1e-6);
    assertTrue(p.get(0).isValid());
  }

  @Test
  void separateParts_comeLargestFirst() {
    List<Polygon> p = all((r, c) -> r == 0 && c < 2 || r == 3 && c < 5);
    assertEquals(2, p.size());
    assertTrue(p.get(0).getArea() > p.get(1).getArea());
    assertEquals(5 * Math.pow(8 / 0.31, 2), p.get(0).getArea(), 1e-6);
  }

  @Test
  void emptySet_hasNoPolygons() {
    assertTrue(all((r, c) -> false).isEmpty());
  }

  @Test
  void window_limitsTheSet() {
    List<Polygon> p = TileShapes.polygons(GRID, 1, 3, 1, 4, (r, c) -> true);
    assertEquals(6 * Math.pow(8 / 0.31, 2), p.get(0).getArea(), 1e-6);
  }
}
