package org.diesurvey.synthetic;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
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

  @ParameterizedTest(name = "seed {0}")
  @ValueSource(longs = {1, 2, 3, 4, 5, 6})
  void padCentres_lieInThePadRing(long seed) {
    DrawnDie die = DieDrawing.draw(seed, SMALL.withFraming(DrawOptions.Framing.WHOLE_DIE));
    boolean ring =
        die.truth().blocks().stream().anyMatch(b -> b.surface() == SurfaceLabel.PAD_RING);
    assertEquals(die.truth().bondPads(), die.truth().padCentresUm().size());
    for (PointUm p : die.truth().padCentresUm()) {
      if (ring) {
        assertEquals(SurfaceLabel.PAD_RING, labelAt(die, p), "pad at " + p);
      }
    }
  }

  @ParameterizedTest(name = "seed {0}")
  @ValueSource(longs = {1, 2, 3})
  void padsOfAField_areThoseInThePhoto(long seed) {
    DrawnDie die = DieDrawing.draw(seed, SMALL.withFraming(DrawOptions.Framing.FIELD));
    for (PointUm p : die.truth().padCentresUm()) {
      double x = die.truth().umToPx().columnPx(p);
      double y = die.truth().umToPx().rowPx(p);
      assertTrue(x >= 0 && y >= 0 && x < die.widthPx() && y < die.heightPx(), "pad at " + p);
    }
  }

  @ParameterizedTest(name = "seed {0}")
  @ValueSource(longs = {1, 2, 3, 4})
  void logicLabels_lieInsideLogicOutlines(long seed) {
    DrawnDie die = DieDrawing.draw(seed, SMALL.withFraming(DrawOptions.Framing.WHOLE_DIE));
    DieTruth t = die.truth();
    for (int y = 0; y < die.heightPx(); y += 3) {
      for (int x = 0; x < die.widthPx(); x += 3) {
        PointUm p = t.umToPx().pointUm(x + 0.5, y + 0.5);
        RectUm at = new RectUm(p.xUm(), p.yUm(), 0, 0).grown(t.umPerPx());
        boolean labelled = die.surface()[y * die.widthPx() + x] == SurfaceLabel.LOGIC;
        boolean near = false;
        boolean deep = false;
        for (BlockTruth b : t.blocks()) {
          if (b.surface() == SurfaceLabel.LOGIC) {
            near |= b.outlineUm().overlaps(at);
            deep |=
                b.outlineUm().contains(at) && b.holesUm().stream().noneMatch(h -> h.overlaps(at));
          }
        }
        assertTrue(near || !labelled, "logic label outside every outline at " + p);
        assertTrue(labelled || !deep || rowEnd(t, p), "no logic label at " + p);
      }
    }
  }

  /** Holes cut whole rows with the channel after them (up to three rows): that much stays free. */
  private static boolean rowEnd(DieTruth t, PointUm p) {
    RectUm around = new RectUm(p.xUm(), p.yUm(), 0, 0).grown(4 * 34e-3 * t.nodeNm() * 1.6);
    return t.blocks().stream()
        .filter(b -> b.surface() == SurfaceLabel.LOGIC)
        .anyMatch(b -> b.holesUm().stream().anyMatch(h -> h.overlaps(around)));
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

  @Test
  void sparseDies_haveMoreBareGround_andHoldLogicAllTheSame() {
    double[] bare = new double[2];
    int logic = 0;
    for (long seed = 1; seed <= 12; seed++) {
      DrawnDie sparse = DieDrawing.draw(seed, SMALL.withStyle(DrawOptions.Style.SPARSE));
      bare[0] += share(DieDrawing.draw(seed, SMALL), SurfaceLabel.EMPTY);
      bare[1] += share(sparse, SurfaceLabel.EMPTY);
      logic += share(sparse, SurfaceLabel.LOGIC) > 0.01 ? 1 : 0;
    }
    assertTrue(bare[1] > 1.5 * bare[0], "bare: " + Arrays.toString(bare));
    assertTrue(logic >= 10, logic + " of 12 hold logic");
  }

  private static double share(DrawnDie die, byte label) {
    int n = 0;
    for (byte code : die.surface()) {
      n += code == label ? 1 : 0;
    }
    return n / (double) die.surface().length;
  }

  /** Fill cells cover what the few cells of the library leave free. */
  @Test
  void rowsThatAreMostlyFilled_holdFewGates() {
    Technology tech = Technology.draw(new Dice(7), 200, 100, false);
    LogicStyle usual = LogicStyle.draw(new Dice(8), tech, false);
    RectUm area = new RectUm(0, 0, 300, 300);
    long[] gates = new long[2];
    double[] covered = new double[2];
    LogicStyle[] styles = {usual, usual.mostlyFilled(new Dice(9))};
    for (int i = 0; i < 2; i++) {
      Canvas canvas = new Canvas(area, 2);
      gates[i] =
          new LogicArea(area, styles[i], new Dice(10), false).paint(Pen.on(canvas), List.of());
      for (float cover : canvas.plane(Layer.DIFFUSION)) {
        covered[i] += cover;
      }
    }
    double few = gates[1] / (double) gates[0];
    assertTrue(few < 0.3, gates[1] + " of " + gates[0]);
    assertTrue(covered[1] > 2 * few * covered[0], covered[1] + " of " + covered[0]);
  }
}
