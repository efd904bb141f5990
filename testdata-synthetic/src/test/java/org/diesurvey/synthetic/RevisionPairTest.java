package org.diesurvey.synthetic;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class RevisionPairTest {
  private static final RevisionOptions FAST = RevisionOptions.defaults().withMaxMegapixels(1.2);

  /** Layouts of both revisions, painted at the same sampling. */
  private record Painted(
      RevisionPlan plan, Canvas first, Canvas second, double reachUm, List<BlockTruth> blocks) {
    static Painted of(long seed) {
      Dice dice = new Dice(seed);
      Technology tech = Technology.draw(dice.child("technology"), 350, 130, false);
      Floorplan floor = Floorplan.draw(tech, dice.child("floorplan"), 1100, 1000, false);
      RevisionPlan plan = RevisionPlan.of(tech, dice.child("changes"), floor, 6, 6);
      Canvas a = new Canvas(floor.die.grown(5), 1);
      Canvas b = new Canvas(floor.die.grown(5), 1);
      plan.first().paint(a, 6, dice.child("paint"));
      List<BlockTruth> blocks = plan.second().paint(b, 6, dice.child("paint"));
      // A cell of up to 30 sites, or a row with its channel, that touches a halo goes as a whole.
      double reach = 6 + Math.max(30 * tech.siteUm(), 6 * tech.rowHeightUm());
      return new Painted(plan, a, b, reach, blocks);
    }
  }

  @ParameterizedTest(name = "seed {0}")
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
  void unchangedPlaces_areDrawnTheSame(long seed) {
    Painted p = Painted.of(seed);
    List<RectUm> changed = new ArrayList<>();
    for (RevisionChange c : p.plan().changes()) {
      c.beforeUm().ifPresent(r -> changed.add(r.grown(p.reachUm())));
      c.afterUm().ifPresent(r -> changed.add(r.grown(p.reachUm())));
    }
    long differing = 0;
    long same = 0;
    for (Layer layer : Layer.values()) {
      if (!p.first().has(layer) && !p.second().has(layer)) {
        continue;
      }
      float[] a = p.first().plane(layer);
      float[] b = p.second().plane(layer);
      for (int i = 0; i < a.length; i++) {
        double x = i % p.first().widthPx - 5 + 0.5;
        double y = (double) (i / p.first().widthPx) - 5 + 0.5;
        RectUm at = new RectUm(x, y, 0, 0).grown(0.5);
        if (changed.stream().noneMatch(r -> r.overlaps(at))) {
          differing += Math.abs(a[i] - b[i]) > 1e-4 ? 1 : 0;
          same += a[i] != 0 ? 1 : 0;
        }
      }
    }
    assertEquals(0, differing, "places that differ outside the changes");
    assertTrue(same > 10_000, "something is drawn: " + same);
  }

  @ParameterizedTest(name = "seed {0}")
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
  void changedPlaces_differ(long seed) {
    Painted p = Painted.of(seed);
    float[] a = p.first().plane(Layer.DIFFUSION);
    float[] b = p.second().plane(Layer.DIFFUSION);
    assertFalse(p.plan().changes().isEmpty());
    for (RevisionChange c : p.plan().changes()) {
      RectUm r =
          Stream.concat(c.beforeUm().stream(), c.afterUm().stream())
              .max(Comparator.comparingDouble(RectUm::areaUm2))
              .orElseThrow();
      double sum = 0;
      int n = 0;
      for (int y = (int) p.first().rowOf(r.yUm()); y < p.first().rowOf(r.bottomUm()); y++) {
        for (int x = (int) p.first().columnOf(r.xUm()); x < p.first().columnOf(r.rightUm()); x++) {
          int i = y * p.first().widthPx + x;
          sum += Math.abs(Math.min(1, a[i]) - Math.min(1, b[i]));
          n++;
        }
      }
      assertTrue(sum / n > 0.02, c + " shows hardly any difference: " + sum / n);
    }
  }

  @Test
  void changes_areOfEveryKindAndOfTheStatedSize() {
    Map<RevisionChange.Kind, Integer> kinds = new EnumMap<>(RevisionChange.Kind.class);
    for (long seed = 1; seed <= 40; seed++) {
      Dice dice = new Dice(seed);
      Technology tech = Technology.draw(dice.child("technology"), 350, 130, false);
      Floorplan floor = Floorplan.draw(tech, dice.child("floorplan"), 1400, 1300, false);
      for (RevisionChange c : RevisionPlan.of(tech, dice, floor, 6, 8).changes()) {
        kinds.merge(c.kind(), 1, Integer::sum);
        check(c);
      }
    }
    for (RevisionChange.Kind kind : RevisionChange.Kind.values()) {
      assertTrue(kinds.getOrDefault(kind, 0) >= 15, "kinds drawn: " + kinds);
    }
  }

  private static void check(RevisionChange c) {
    c.beforeUm().ifPresent(r -> assertTrue(least(r) >= 40, c.toString()));
    c.afterUm().ifPresent(r -> assertTrue(least(r) >= 40, c.toString()));
    switch (c.kind()) {
      case MOVED -> {
        assertTrue(Math.hypot(c.movedXUm(), c.movedYUm()) >= 40, c.toString());
        assertEquals(c.beforeUm().get().areaUm2(), c.afterUm().get().areaUm2(), 1e-6);
      }
      case RESIZED -> {
        RectUm a = c.beforeUm().get();
        RectUm b = c.afterUm().get();
        double w = Math.abs(a.widthUm() - b.widthUm());
        double h = Math.abs(a.heightUm() - b.heightUm());
        assertTrue(Math.max(w, h) >= 40, c.toString());
      }
      case CLASS, TEXTURE -> assertEquals(c.beforeUm(), c.afterUm());
      default -> {}
    }
  }

  private static double least(RectUm r) {
    return Math.min(r.widthUm(), r.heightUm());
  }

  @ParameterizedTest(name = "side {0}")
  @ValueSource(ints = {0, 1, 2, 3})
  void grownDie_keepsItsLayoutAndItsOtherSides(int side) {
    Dice dice = new Dice(12);
    Technology tech = Technology.draw(dice.child("technology"), 350, 130, false);
    Floorplan floor = Floorplan.draw(tech, dice.child("floorplan"), 1100, 1000, false);
    RevisionPlan plan = RevisionPlan.of(tech, dice, floor, 6, 0);
    RevisionLayout small = plan.first();
    RevisionLayout large = plan.secondGrown(side, 100);
    Canvas a = new Canvas(small.dieAtOrigin(), 1);
    Canvas b = new Canvas(large.dieAtOrigin(), 1);
    small.paint(a, 6, dice.child("paint"));
    large.paint(b, 6, dice.child("paint"));
    int dx = side == 3 ? 100 : 0;
    int dy = side == 0 ? 100 : 0;
    RectUm core = floor.core.grown(-1);
    float[] p = a.plane(Layer.DIFFUSION);
    float[] q = b.plane(Layer.DIFFUSION);
    for (int y = (int) core.yUm() + 1; y < core.bottomUm() - 1; y++) {
      for (int x = (int) core.xUm() + 1; x < core.rightUm() - 1; x++) {
        assertEquals(p[y * a.widthPx + x], q[(y + dy) * b.widthPx + x + dx], 1e-3f);
      }
    }
    // The ring of the opposite side stays where it was.
    for (int k = 0; k < 60; k++) {
      for (int s = 200; s < 700; s++) {
        int ax = side == 1 ? k : side == 3 ? a.widthPx - 1 - k : s;
        int ay = side == 2 ? k : side == 0 ? a.heightPx - 1 - k : s;
        assertEquals(p[ay * a.widthPx + ax], q[(ay + dy) * b.widthPx + ax + dx], 1e-3f);
      }
    }
    assertTrue(large.padCentres().size() >= small.padCentres().size());
    assertTrue(small.padCentres().size() > 8);
  }

  @Test
  void sameSeed_givesSameBytes_andTruthFitsBothPhotographs() {
    RevisionPair a = RevisionPair.draw(3, FAST.withChanges(3, 6));
    RevisionPair b = RevisionPair.draw(3, FAST.withChanges(3, 6));
    assertArrayEquals(a.first().rgb(), b.first().rgb());
    assertArrayEquals(a.second().rgb(), b.second().rgb());
    assertEquals(a.truth(), b.truth());
    for (RevisionChange c : a.truth().changes()) {
      c.beforeUm().ifPresent(r -> assertLabelled(a.first(), r, c));
      RectUm shift = a.truth().secondDieUm();
      c.afterUm()
          .ifPresent(
              r ->
                  assertLabelled(
                      a.second(),
                      new RectUm(
                          r.xUm() - shift.xUm(), r.yUm() - shift.yUm(), r.widthUm(), r.heightUm()),
                      c));
    }
  }

  /** The middle of a place lies on the die, and bears no label of ring or background. */
  private static void assertLabelled(DrawnDie die, RectUm r, RevisionChange c) {
    PointUm p = new PointUm(r.xUm() + r.widthUm() / 2, r.yUm() + r.heightUm() / 2);
    int x = (int) die.truth().umToPx().columnPx(p);
    int y = (int) die.truth().umToPx().rowPx(p);
    byte code = die.surface()[y * die.widthPx() + x];
    assertTrue(
        code != SurfaceLabel.OFF_DIE && code != SurfaceLabel.PAD_RING, c + " has label " + code);
  }

  @ParameterizedTest(name = "seed {0}")
  @ValueSource(longs = {1, 2, 3, 4, 5, 6})
  void placesInTheSecondFrame_areWhereItsPhotographShowsThem(long seed) {
    RevisionPair pair = RevisionPair.draw(seed, FAST.withChanges(2, 4).withGrowth(0.5));
    RevisionTruth t = pair.truth();
    DieTruth second = pair.second().truth();
    for (RevisionChange c : t.changes()) {
      if (c.afterUm().isEmpty()) {
        continue;
      }
      RectUm r = c.afterUm().get();
      RectUm in = t.inSecond(r);
      // Distance of the place from the visual upper left die corner, along the visual axes.
      List<PointUm> corners = second.dieUm().corners();
      double[] visual = visual(second, r, t, corners);
      assertEquals(visual[0], in.xUm(), 1e-6, "orientation " + t.orientation());
      assertEquals(visual[1], in.yUm(), 1e-6, "orientation " + t.orientation());
    }
  }

  private static double[] visual(DieTruth d, RectUm r, RevisionTruth t, List<PointUm> corners) {
    double a = StrictMath.toRadians(-residual(d.rotationDeg()));
    double left = Double.MAX_VALUE;
    double top = Double.MAX_VALUE;
    for (PointUm p : corners) {
      double x = d.umToPx().columnPx(p);
      double y = d.umToPx().rowPx(p);
      left = Math.min(left, Math.cos(a) * x - Math.sin(a) * y);
      top = Math.min(top, Math.sin(a) * x + Math.cos(a) * y);
    }
    double placeLeft = Double.MAX_VALUE;
    double placeTop = Double.MAX_VALUE;
    for (PointUm p : r.corners()) {
      PointUm q = new PointUm(p.xUm() - t.secondDieUm().xUm(), p.yUm() - t.secondDieUm().yUm());
      double x = d.umToPx().columnPx(q);
      double y = d.umToPx().rowPx(q);
      placeLeft = Math.min(placeLeft, Math.cos(a) * x - Math.sin(a) * y);
      placeTop = Math.min(placeTop, Math.sin(a) * x + Math.cos(a) * y);
    }
    return new double[] {(placeLeft - left) * d.umPerPx(), (placeTop - top) * d.umPerPx()};
  }

  private static double residual(double degrees) {
    return degrees - 90 * Math.rint(degrees / 90);
  }

  @Test
  void noChangeWanted_givesTheSameLayout() {
    RevisionPair pair = RevisionPair.draw(9, FAST.unchanged());
    assertTrue(pair.truth().changes().isEmpty());
    assertTrue(pair.truth().grownUm().isEmpty());
    assertEquals(pair.first().truth().blocks().size(), pair.second().truth().blocks().size());
  }

  @Test
  void strangers_haveTechnologyAndSizeInCommon() {
    RevisionPair pair = RevisionPair.strangers(9, FAST);
    assertFalse(pair.truth().sameChip());
    assertEquals(pair.first().truth().technology(), pair.second().truth().technology());
    assertEquals(pair.first().truth().dieWidthUm(), pair.second().truth().dieWidthUm());
    assertFalse(pair.first().truth().blocks().equals(pair.second().truth().blocks()));
  }

  @Test
  void writtenFiles_holdThePair(@TempDir Path folder) throws Exception {
    RevisionPair pair = RevisionPair.draw(4, FAST.withChanges(2, 3));
    Path truth = RevisionFiles.write(pair, folder, "die", DieFiles.Format.JPG);
    JsonNode json = new ObjectMapper().readTree(truth.toFile());
    assertEquals("die-a.jpg", json.get("first").textValue());
    assertTrue(folder.resolve(json.get("second").textValue()).toFile().isFile());
    assertEquals(pair.truth().changes().size(), json.get("changes").size());
    assertEquals(
        pair.truth().secondStatedUmPerPx(), json.get("second_stated_um_per_px").asDouble(), 1e-12);
  }
}
