package org.diesurvey.regions;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.diesurvey.classification.DieClass;
import org.diesurvey.features.DamageMap;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.tiles.TileGrid;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;

class DamagedPlacesTest {
  /** Tiles of 16 px, cells of 4 px. */
  private static final TileGrid GRID = new TileGrid(8, 0.5, 320, 320);

  private static DieRegion logic() {
    return new DieRegion(
        DieClass.LOGIC,
        Optional.empty(),
        TileShapes.rectangle(0, 0, 320, 320),
        List.of(),
        Map.of(DieClass.LOGIC, 1.0),
        0.9,
        400,
        Optional.empty());
  }

  private static DamageMap damage(int x0, int y0, int x1, int y1) {
    LabelRaster mask = new LabelRaster(80, 80);
    for (int y = y0; y < y1; y++) {
      for (int x = x0; x < x1; x++) {
        mask.set(x, y, 2);
      }
    }
    return DamageMap.of(mask, 2);
  }

  @Test
  void placeInsideARegion_becomesAHoleAndARegion() {
    List<DieRegion> out = DamagedPlaces.cut(List.of(logic()), damage(20, 20, 30, 28), GRID);
    assertEquals(2, out.size());
    double hidden = 10 * 8 * 16;
    assertEquals(320 * 320 - hidden, out.get(0).outline().getArea(), 1e-6);
    assertEquals(1, out.get(0).outline().getNumInteriorRing());
    assertEquals(DieClass.UNCLEAR, out.get(1).dieClass());
    assertEquals(Optional.of("damaged"), out.get(1).reason());
    assertEquals(hidden, out.get(1).outline().getArea(), 1e-6);
    assertEquals(0, out.get(0).outline().intersection(out.get(1).outline()).getArea(), 1e-9);
  }

  @Test
  void scratchAcrossARegion_doesNotCutItInTwo() {
    List<DieRegion> out = DamagedPlaces.cut(List.of(logic()), damage(0, 40, 80, 42), GRID);
    assertEquals(1, out.stream().filter(r -> r.dieClass() == DieClass.LOGIC).count());
  }

  @Test
  void missingField_isNoDamage() {
    LabelRaster mask = new LabelRaster(80, 80);
    for (int i = 0; i < 400; i++) {
      mask.set(20 + i % 20, 30 + i / 20, 3);
      mask.set(60 + i % 4, 30 + i / 20, 1);
    }
    List<DieRegion> out = DamagedPlaces.cut(List.of(logic()), DamageMap.of(mask, 2), GRID);
    assertEquals(
        List.of(Optional.empty(), Optional.of("missing"), Optional.of("damaged")),
        out.stream().map(DieRegion::reason).toList());
    assertEquals(20 * 20 * 16, out.get(1).outline().getArea(), 1e-6);
  }

  /** A corner of 24 x 12 px is cut off and dropped; the array goes on below the dirt, not there. */
  @Test
  void droppedCrumb_leavesTheBitCellArrayToo() {
    DieRegion memory =
        new DieRegion(
            DieClass.MEMORY_ARRAY,
            Optional.empty(),
            TileShapes.rectangle(0, 0, 320, 320),
            List.of(TileShapes.rectangle(200, 0, 320, 200)),
            Map.of(DieClass.MEMORY_ARRAY, 1.0),
            0.9,
            400,
            Optional.empty());
    LabelRaster mask = new LabelRaster(80, 80);
    for (int y = 0; y < 12; y++) {
      for (int x = 66; x < 80; x++) {
        mask.set(x, y, x >= 74 && y < 3 ? 0 : 2);
      }
    }
    List<DieRegion> out = DamagedPlaces.cut(List.of(memory), DamageMap.of(mask, 2), GRID);
    assertEquals(2, out.size());
    assertEquals(1, out.get(0).arrays().size());
    Polygon array = out.get(0).arrays().get(0);
    assertEquals(120 * 200 - 24 * 12, array.getArea(), 1e-6);
    Geometry covered = out.get(0).outline().union(out.get(1).outline());
    assertEquals(0, array.difference(covered).getArea(), 1e-6);
  }

  /** What is left of an array once its crumb is dropped lies below the dirt alone. */
  @Test
  void arrayThatLiesBelowDirtAlone_isNotClaimed() {
    DieRegion memory =
        new DieRegion(
            DieClass.MEMORY_ARRAY,
            Optional.empty(),
            TileShapes.rectangle(0, 0, 320, 320),
            List.of(TileShapes.rectangle(280, 0, 320, 30), TileShapes.rectangle(40, 100, 200, 300)),
            Map.of(DieClass.MEMORY_ARRAY, 1.0),
            0.9,
            400,
            Optional.empty());
    LabelRaster mask = new LabelRaster(80, 80);
    for (int y = 0; y < 12; y++) {
      for (int x = 66; x < 80; x++) {
        mask.set(x, y, x >= 74 && y < 3 ? 0 : 2);
      }
    }
    List<DieRegion> out = DamagedPlaces.cut(List.of(memory), DamageMap.of(mask, 2), GRID);
    assertEquals(1, out.get(0).arrays().size());
    assertEquals(160 * 200, out.get(0).arrays().get(0).getArea(), 1e-6);
  }

  @Test
  void withoutDamage_nothingChanges() {
    List<DieRegion> in = List.of(logic());
    assertSame(in, DamagedPlaces.cut(in, DamageMap.of(new LabelRaster(80, 80), 2), GRID));
  }
}
