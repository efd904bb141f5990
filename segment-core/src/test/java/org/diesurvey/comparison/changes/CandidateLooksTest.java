package org.diesurvey.comparison.changes;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.diesurvey.classification.DieClass;
import org.diesurvey.comparison.PlacedBlock;
import org.diesurvey.comparison.TestAgreement;
import org.diesurvey.comparison.changes.ChangeFinder.ChangeCandidate;
import org.diesurvey.comparison.document.ChangeKind;
import org.diesurvey.comparison.registration.OfBoth;
import org.diesurvey.comparison.tiles.TileClasses;
import org.diesurvey.comparison.tiles.TileSet;
import org.diesurvey.raster.GrayRaster;
import org.junit.jupiter.api.Test;

/** A macro that is in the first die only: 96 px square at 200, 240 (y down 304). */
class CandidateLooksTest {
  private static final TileSet MACRO = tiles(200, 304, 96);

  private final CandidateLooks looks;

  CandidateLooksTest() {
    GrayRaster b = TestAgreement.texture(7);
    GrayRaster a = TestAgreement.with(b, TestAgreement.texture(8), 200, 304, 200, 304, 96, 96);
    List<PlacedBlock> macro = List.of(TestAgreement.block(DieClass.HARD_MACRO, 200, 304, 96, 96));
    looks =
        new CandidateLooks(
            TestAgreement.of(a, b, macro, List.of()),
            new OfBoth<>(TestAgreement.classes(macro), TestAgreement.classes(List.of())));
  }

  private static TileSet tiles(int x, int y, int side) {
    boolean[] mask = new boolean[TestAgreement.COLUMNS * TestAgreement.COLUMNS];
    TestAgreement.mark(mask, x, y, side, side);
    return new TileSet(TestAgreement.COLUMNS, mask);
  }

  private static ChangeCandidate texture() {
    return new ChangeCandidate(
        ChangeKind.TEXTURE, Optional.empty(), Optional.empty(), MACRO, MACRO, null);
  }

  @Test
  void sameKind_isTheSamePlace() {
    ChangeCandidate p = texture();
    assertSame(p, looks.as(p, ChangeKind.TEXTURE));
  }

  @Test
  void gone_liesInTheFirstDieOnly_new_inTheSecond() {
    ChangeCandidate gone = looks.as(texture(), ChangeKind.GONE);
    assertNotNull(gone.inA());
    assertNull(gone.inB());
    assertEquals(Optional.of(DieClass.HARD_MACRO), gone.classA());
    assertEquals(Optional.of(DieClass.LOGIC), gone.classB());
    ChangeCandidate fresh = looks.as(texture(), ChangeKind.NEW);
    assertNull(fresh.inA());
    assertNotNull(fresh.inB());
    assertEquals(Optional.of(DieClass.LOGIC), fresh.classA());
  }

  @Test
  void resized_isAPieceWithLogicOnTheSideThatHasNoBlock() {
    ChangeCandidate p = looks.as(texture(), ChangeKind.RESIZED);
    assertSame(p.inA(), p.inB());
    assertTrue(p.classA().filter(TileClasses::isBlock).isPresent());
    assertFalse(p.classB().filter(TileClasses::isBlock).isPresent());
  }

  @Test
  void figures_tellWhichDieHasTheBlock() {
    CandidateFigures figures = new CandidateFigures(looks);
    float[] here = figures.of(texture());
    assertEquals(CandidateFigures.SIZE, here.length);
    assertTrue(here[0] > here[1] + 1, "a block in the first only: " + here[0] + ", " + here[1]);
    assertTrue(here[6] > here[7] + 1, "by the model too: " + here[6] + ", " + here[7]);
    TileSet away = tiles(440, 80, 96);
    float[] there =
        figures.of(
            new ChangeCandidate(
                ChangeKind.TEXTURE, Optional.empty(), Optional.empty(), away, away, null));
    assertEquals(there[0], there[1], 0.5);
    int sure = 18;
    assertTrue(here[sure] > 0.5 && there[sure] < 0.1, here[sure] + " changed, " + there[sure]);
    int last = CandidateFigures.SIZE - ChangeKind.values().length;
    for (ChangeKind k : ChangeKind.values()) {
      assertEquals(k == ChangeKind.TEXTURE ? 1 : 0, here[last + k.ordinal()]);
    }
  }
}
