package org.diesurvey.comparison.changes;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.stream.Stream;
import org.diesurvey.classification.DieClass;
import org.diesurvey.comparison.PlacedBlock;
import org.diesurvey.comparison.TestAgreement;
import org.diesurvey.comparison.changes.ChangeFinder.ChangeCandidate;
import org.diesurvey.comparison.document.ChangeKind;
import org.diesurvey.comparison.registration.OfBoth;
import org.diesurvey.comparison.tiles.TileSet;
import org.diesurvey.raster.GrayRaster;
import org.junit.jupiter.api.Test;

/** A macro that is in the first die only, 160 px square, and changed logic beside or around it. */
class ChangeNamerTest {
  private static final int SIDE = 160;
  private static final int AT = 200;

  /** Places of the macro's ground with a rectangle that holds some of the logic. */
  private static List<ChangeCandidate> places(int x, int y, int wide, int high) {
    GrayRaster b = TestAgreement.texture(7);
    GrayRaster a = TestAgreement.with(b, TestAgreement.texture(8), AT, AT, AT, AT, SIDE, SIDE);
    List<PlacedBlock> macro = List.of(TestAgreement.block(DieClass.HARD_MACRO, AT, AT, SIDE, SIDE));
    CandidateLooks looks =
        new CandidateLooks(
            TestAgreement.of(a, b, macro, List.of()),
            new OfBoth<>(TestAgreement.classes(macro), TestAgreement.classes(List.of())));
    boolean[] mask = new boolean[TestAgreement.COLUMNS * TestAgreement.COLUMNS];
    TestAgreement.mark(mask, AT, AT, SIDE, SIDE);
    TestAgreement.mark(mask, x, y, wide, high);
    return new ChangeNamer(looks).places(new TileSet(TestAgreement.COLUMNS, mask), 14);
  }

  private static List<ChangeKind> kinds(List<ChangeCandidate> places) {
    return places.stream().map(ChangeCandidate::kind).sorted().toList();
  }

  @Test
  void changedLogicBesideABlockThatWent_isAPlaceOfItsOwn() {
    List<ChangeCandidate> places = places(AT + SIDE, AT + 40, 80, 96);
    assertEquals(Stream.of(ChangeKind.GONE, ChangeKind.TEXTURE).sorted().toList(), kinds(places));
    for (ChangeCandidate p : places) {
      int middle = (p.tiles().left() + p.tiles().right()) * 4;
      assertEquals(p.kind() == ChangeKind.GONE, middle < AT + SIDE, p.kind() + " at " + middle);
    }
  }

  @Test
  void rimOfABlock_isNoPlace() {
    List<ChangeCandidate> places = places(AT - 24, AT - 24, SIDE + 48, SIDE + 48);
    assertEquals(List.of(ChangeKind.GONE), kinds(places));
  }
}
