package org.diesurvey.regions;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.diesurvey.classification.DieClass;
import org.diesurvey.classification.UnclearReason;
import org.diesurvey.features.damage.DamageMap;
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
    assertEquals(Optional.of(UnclearReason.DAMAGED), out.get(1).reason());
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
        List.of(
            Optional.empty(),
            Optional.of(UnclearReason.MISSING),
            Optional.of(UnclearReason.DAMAGED)),
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

  private static DieRegion memory(Polygon outline, Polygon... arrays) {
    return new DieRegion(
        DieClass.MEMORY_ARRAY,
        Optional.empty(),
        outline,
        List.of(arrays),
        Map.of(DieClass.MEMORY_ARRAY, 1.0),
        0.9,
        400,
        Optional.empty());
  }

  private static LabelRaster mask(int[]... boxes) {
    LabelRaster mask = new LabelRaster(80, 80);
    for (int[] b : boxes) {
      for (int y = b[1]; y < b[3]; y++) {
        for (int x = b[0]; x < b[2]; x++) {
          mask.set(x, y, 2);
        }
      }
    }
    return mask;
  }

  /** Whatever is cut, regions and places make up the die once, by the areas of JTS. */
  @Test
  void regionsAndPlaces_coverTheDieOnce() {
    DieRegion left = memory(TileShapes.rectangle(0, 0, 150, 320));
    DieRegion right = memory(TileShapes.rectangle(150, 0, 320, 320));
    LabelRaster mask = mask(new int[] {30, 30, 50, 44}, new int[] {60, 2, 70, 12});
    List<DieRegion> out = DamagedPlaces.cut(List.of(left, right), DamageMap.of(mask, 2), GRID);
    Geometry union = TileShapes.FACTORY.createPolygon();
    double sum = 0;
    for (DieRegion r : out) {
      union = union.union(r.outline());
      sum += r.outline().getArea();
    }
    assertEquals(320 * 320, union.getArea(), 1e-6);
    assertEquals(320 * 320, sum, 1e-6);
  }

  /** A place, unlike a scratch, cuts its region in two, and the arrays go with their parts. */
  @Test
  void broadPlaceAcrossARegion_cutsItAndItsArrays() {
    Polygon array = TileShapes.rectangle(40, 40, 280, 280);
    LabelRaster mask = mask(new int[] {0, 36, 80, 44});
    List<DieRegion> out =
        DamagedPlaces.cut(
            List.of(memory(TileShapes.rectangle(0, 0, 320, 320), array)),
            DamageMap.of(mask, 2),
            GRID);
    assertEquals(3, out.size());
    double arrays = 0;
    for (DieRegion r : out.subList(0, 2)) {
      assertEquals(320 * 144, r.outline().getArea(), 1e-6);
      assertEquals(1, r.arrays().size());
      assertEquals(0, r.arrays().get(0).difference(r.outline()).getArea(), 1e-6);
      arrays += r.arrays().get(0).getArea();
    }
    assertEquals(240 * (240 - 32), arrays, 1e-6);
    assertEquals(DieClass.UNCLEAR, out.get(2).dieClass());
  }

  /** A scratch that only reaches in is taken out, one that cuts through stays in. */
  @Test
  void scratch_isTakenOutUnlessItCutsThrough() {
    DieRegion in =
        DamagedPlaces.cut(List.of(logic()), DamageMap.of(mask(new int[] {0, 40, 60, 42}), 2), GRID)
            .get(0);
    assertEquals(320 * 320 - 60 * 2 * 16, in.outline().getArea(), 1e-6);
    DieRegion through =
        DamagedPlaces.cut(List.of(logic()), DamageMap.of(mask(new int[] {0, 40, 80, 42}), 2), GRID)
            .get(0);
    assertEquals(320 * 320, through.outline().getArea(), 1e-6);
  }

  /** Two tiles of 16 px are kept, less is dropped. */
  @Test
  void partsBelowTwoTiles_areDropped() {
    for (int side : new int[] {5, 6}) {
      LabelRaster mask = mask(new int[] {0, 0, 20, 20});
      for (int i = 0; i < side * side; i++) {
        mask.set(i % side, i / side, 0);
      }
      List<DieRegion> out = DamagedPlaces.cut(List.of(logic()), DamageMap.of(mask, 2), GRID);
      long parts = out.stream().filter(r -> r.dieClass() == DieClass.LOGIC).count();
      // 5 x 5 cells of 16 px2 are 400 px2, 6 x 6 are 576; two tiles are 512.
      assertEquals(side == 5 ? 1 : 2, parts);
    }
  }

  @Test
  void placesKnowNothingOfTheirClass() {
    List<DieRegion> out =
        DamagedPlaces.cut(
            List.of(logic()), DamageMap.of(mask(new int[] {20, 20, 30, 28}), 2), GRID);
    DieRegion place = out.get(1);
    assertEquals(4, place.probabilities().size());
    assertEquals(1, place.probabilities().values().stream().mapToDouble(v -> v).sum(), 1e-12);
    assertEquals(0.5, place.confidence());
    assertEquals(10 * 8 / 16, place.tiles());
    assertEquals(List.of(), place.arrays());
    assertTrue(DamagedPlaces.hides(place));
    assertFalse(DamagedPlaces.hides(out.get(0)));
    LabelRaster field = mask(new int[] {20, 20, 22, 21});
    field.set(20, 20, 3);
    field.set(21, 20, 3);
    DieRegion missing = DamagedPlaces.cut(List.of(logic()), DamageMap.of(field, 2), GRID).get(1);
    assertEquals(0.99, missing.confidence());
    assertEquals(1, missing.tiles(), "at least one");
    assertTrue(DamagedPlaces.hides(missing));
  }

  /** Regions come by class, then what hides last among the unclear, each largest first. */
  @Test
  void order_isThatOfTheRegionMap() {
    DieRegion bare =
        new DieRegion(
            DieClass.UNCLEAR,
            Optional.of(UnclearReason.EMPTY),
            TileShapes.rectangle(0, 0, 64, 64),
            List.of(),
            Map.of(),
            0.9,
            16,
            Optional.empty());
    LabelRaster mask = mask(new int[] {30, 30, 34, 34}, new int[] {50, 50, 70, 70});
    List<DieRegion> out =
        DamagedPlaces.cut(
            List.of(memory(TileShapes.rectangle(64, 64, 320, 320)), bare),
            DamageMap.of(mask, 2),
            GRID);
    assertEquals(
        List.of(
            Optional.empty(),
            Optional.of(UnclearReason.EMPTY),
            Optional.of(UnclearReason.DAMAGED),
            Optional.of(UnclearReason.DAMAGED)),
        out.stream().map(DieRegion::reason).toList());
    assertEquals(20 * 20 * 16, out.get(2).outline().getArea(), 1e-6);
    assertEquals(4 * 4 * 16, out.get(3).outline().getArea(), 1e-6);
  }

  /** What lies beyond the last tile is on no die: a place there alone is none. */
  @Test
  void placeBeyondTheGrid_isLeftOut() {
    TileGrid small = new TileGrid(8, 0.5, 200, 200);
    DieRegion all = memory(TileShapes.rectangle(0, 0, 200, 200));
    DamageMap beyond = DamageMap.of(mask(new int[] {60, 60, 70, 70}), 2);
    assertEquals(List.of(all), DamagedPlaces.cut(List.of(all), beyond, small));
    // 45 to 55 of 50 cells of 4 px: half of the place each way.
    DamageMap across = DamageMap.of(mask(new int[] {45, 45, 55, 55}), 2);
    List<DieRegion> out = DamagedPlaces.cut(List.of(all), across, small);
    assertEquals(20 * 20, out.get(1).outline().getArea(), 1e-6);
  }

  @Test
  void regionHeldWithAnotherConfidence_isTheSameElse() {
    DieRegion r = logic().withConfidence(0.4);
    assertEquals(0.4, r.confidence());
    assertEquals(logic().tiles(), r.tiles());
    assertTrue(logic().outline().equalsExact(r.outline()));
  }
}
