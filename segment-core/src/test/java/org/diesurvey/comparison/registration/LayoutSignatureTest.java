package org.diesurvey.comparison.registration;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.diesurvey.classification.DieClass;
import org.diesurvey.comparison.PlacedBlock;
import org.diesurvey.comparison.PlacedSurvey;
import org.diesurvey.comparison.document.Orientation;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class LayoutSignatureTest {
  /** Blocks of a die of 1000 x 800 um, origin lower left, y up: x, y, width, height. */
  private static final List<PlacedBlock> LAYOUT =
      List.of(
          new PlacedBlock(DieClass.MEMORY_ARRAY, 100, 100, 300, 200),
          new PlacedBlock(DieClass.MEMORY_ARRAY, 700, 500, 200, 200),
          new PlacedBlock(DieClass.HARD_MACRO, 500, 150, 150, 250),
          new PlacedBlock(DieClass.LOGIC, 100, 420, 500, 280));

  @Test
  void sameLayout_scoresOne() {
    LayoutSignature a = LayoutSignature.of(PlacedSurvey.of(1000, 800, LAYOUT, true));
    LayoutSignature.Likeness own = a.likeness(a);
    assertEquals(1, own.score(), 1e-9);
    assertEquals(Orientation.R0, own.orientation());
  }

  @ParameterizedTest(name = "{0}")
  @EnumSource(Orientation.class)
  void turnedAndMirroredLayouts_areKnown_withTheirOrientation(Orientation o) {
    List<PlacedBlock> turned = new ArrayList<>();
    double w = o.swapsSides() ? 800 : 1000;
    double h = o.swapsSides() ? 1000 : 800;
    for (PlacedBlock b : LAYOUT) {
      turned.add(b.laid(o, 1000, 800, w, h));
    }
    LayoutSignature a = LayoutSignature.of(PlacedSurvey.of(1000, 800, LAYOUT, true));
    LayoutSignature b = LayoutSignature.of(PlacedSurvey.of(w, h, turned, true));
    LayoutSignature.Likeness found = a.likeness(b);
    assertEquals(o, found.orientation());
    assertTrue(found.score() > 0.97, "score " + found.score());
  }

  @Test
  void dieThatHasGrownOnOneSide_isKnownAtTrueScale() {
    List<PlacedBlock> same = new ArrayList<>(LAYOUT);
    LayoutSignature a = LayoutSignature.of(PlacedSurvey.of(1000, 800, LAYOUT, true));
    LayoutSignature scaled = LayoutSignature.of(PlacedSurvey.of(1150, 800, same, true));
    LayoutSignature unscaled = LayoutSignature.of(PlacedSurvey.of(1150, 800, same, false));
    double known = a.likeness(scaled).score();
    double stretched =
        LayoutSignature.of(PlacedSurvey.of(1000, 800, LAYOUT, false)).likeness(unscaled).score();
    assertTrue(known > 0.55, "score " + known);
    assertTrue(known > stretched, known + " at true scale, stretched " + stretched);
  }

  @Test
  void otherLayoutOfTheSameShares_scoresFarLower() {
    List<PlacedBlock> other =
        List.of(
            new PlacedBlock(DieClass.MEMORY_ARRAY, 600, 80, 300, 200),
            new PlacedBlock(DieClass.MEMORY_ARRAY, 80, 80, 200, 200),
            new PlacedBlock(DieClass.HARD_MACRO, 80, 500, 150, 250),
            new PlacedBlock(DieClass.LOGIC, 300, 320, 500, 280));
    LayoutSignature a = LayoutSignature.of(PlacedSurvey.of(1000, 800, LAYOUT, true));
    LayoutSignature b = LayoutSignature.of(PlacedSurvey.of(1000, 800, other, true));
    double score = a.likeness(b).score();
    assertTrue(score < 0.5, "score " + score);
  }

  @Test
  void movedBlock_costsLittle() {
    List<PlacedBlock> moved = new ArrayList<>(LAYOUT);
    moved.set(2, new PlacedBlock(DieClass.HARD_MACRO, 600, 150, 150, 250));
    LayoutSignature a = LayoutSignature.of(PlacedSurvey.of(1000, 800, LAYOUT, true));
    double score = a.likeness(LayoutSignature.of(PlacedSurvey.of(1000, 800, moved, true))).score();
    assertTrue(score > 0.85 && score < 0.99, "score " + score);
  }
}
