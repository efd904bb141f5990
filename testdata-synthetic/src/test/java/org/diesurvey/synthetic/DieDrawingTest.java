package org.diesurvey.synthetic;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class DieDrawingTest {
  private static final DrawOptions SMALL =
      DrawOptions.defaults().withMaxMegapixels(1).withUmPerPx(1.2);

  @Test
  void sameSeed_givesSameBytes() {
    DrawnDie a = DieDrawing.draw(5, SMALL);
    DrawnDie b = DieDrawing.draw(5, SMALL);
    assertArrayEquals(a.rgb(), b.rgb());
    assertArrayEquals(a.surface(), b.surface());
    assertArrayEquals(a.damage(), b.damage());
    assertEquals(a.truth(), b.truth());
  }

  @Test
  void otherSeed_givesOtherPicture() {
    DrawnDie a = DieDrawing.draw(5, SMALL);
    DrawnDie b = DieDrawing.draw(6, SMALL);
    assertFalse(Arrays.equals(a.rgb(), b.rgb()));
  }

  @ParameterizedTest(name = "seed {0}")
  @ValueSource(longs = {1, 2, 3, 4, 5, 6})
  void everyArrayRectangle_isLabelledAsArray(long seed) {
    DrawnDie die = DieDrawing.draw(seed, SMALL.withFraming(DrawOptions.Framing.WHOLE_DIE));
    DieTruth t = die.truth();
    for (BlockTruth b : t.blocks()) {
      for (RectUm r : b.arraysUm()) {
        RectUm inside = r.grown(-1.5 * t.umPerPx());
        if (inside.areaUm2() == 0) {
          continue;
        }
        for (PointUm p : inside.corners()) {
          assertEquals(SurfaceLabel.MEMORY_ARRAY, labelAt(die, p), b.id() + " at " + p);
        }
      }
    }
  }

  @ParameterizedTest(name = "seed {0}")
  @ValueSource(longs = {1, 2, 3, 4, 5, 6})
  void statedAreas_agreeWithLabelMap(long seed) {
    DrawnDie die = DieDrawing.draw(seed, SMALL.withFraming(DrawOptions.Framing.WHOLE_DIE));
    DieTruth t = die.truth();
    double pxUm2 = t.umPerPx() * t.umPerPx();
    double[] labelled = new double[SurfaceLabel.COUNT];
    for (byte code : die.surface()) {
      labelled[code] += pxUm2;
    }
    double arrays = 0;
    double macros = 0;
    double perimeter = 1;
    for (BlockTruth b : t.blocks()) {
      for (RectUm r : b.arraysUm()) {
        arrays += r.areaUm2();
        perimeter += 2 * (r.widthUm() + r.heightUm());
      }
      if (b.surface() == SurfaceLabel.HARD_MACRO) {
        macros += b.outlineUm().areaUm2();
        perimeter += 2 * (b.outlineUm().widthUm() + b.outlineUm().heightUm());
      }
    }
    // Nearest sampling: along an edge the error is far below half a pixel on average.
    double tolerance = 0.5 * t.umPerPx() * perimeter;
    assertEquals(arrays, labelled[SurfaceLabel.MEMORY_ARRAY], tolerance);
    assertEquals(macros, labelled[SurfaceLabel.HARD_MACRO], tolerance);
    double onDie = t.dieUm().areaUm2();
    double seen = Arrays.stream(labelled).sum() - labelled[SurfaceLabel.OFF_DIE];
    assertEquals(onDie, seen, 0.02 * onDie);
  }

  @Test
  void inventory_addsUp() {
    DieTruth t = DieDrawing.draw(3, SMALL).truth();
    long bits = 0;
    for (BlockTruth b : t.blocks()) {
      if (b.bits() > 0) {
        double cells = b.arraysUm().stream().mapToDouble(RectUm::areaUm2).sum();
        double perBit = cells / b.bits();
        double cell = b.bitCellWidthUm() * b.bitCellHeightUm();
        // Straps and tap rows take up to two cells after every four and eight.
        assertTrue(
            perBit >= cell * 0.999 && perBit < cell * 2.2, b.id() + " um2 per bit " + perBit);
        bits += b.bits();
      }
    }
    assertEquals(bits, t.bits());
    assertTrue(t.nand2Equivalents() >= 0);
  }

  private static byte labelAt(DrawnDie die, PointUm p) {
    int x = (int) die.truth().umToPx().columnPx(p);
    int y = (int) die.truth().umToPx().rowPx(p);
    return die.surface()[y * die.widthPx() + x];
  }
}
