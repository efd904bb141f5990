package org.diesurvey.comparison.changes;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.diesurvey.classification.DieClass;
import org.diesurvey.comparison.PlacedBlock;
import org.diesurvey.comparison.TestAgreement;
import org.diesurvey.comparison.document.ChangeKind;
import org.diesurvey.comparison.registration.OfBoth;
import org.diesurvey.comparison.tiles.TileComparison;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.vision.ImageFilters;
import org.junit.jupiter.api.Test;

class MoveFinderTest {
  private static final int COLUMNS = TestAgreement.COLUMNS;

  private static final int X = 160;
  private static final int Y = 240;
  private static final int W = 128;
  private static final int H = 96;

  private static boolean[] wanted(int dx, int dy) {
    boolean[] wanted = new boolean[COLUMNS * COLUMNS];
    TestAgreement.mark(wanted, X, Y, W, H);
    TestAgreement.mark(wanted, X + dx, Y + dy, W, H);
    return wanted;
  }

  /** The ground of {@code a} with its block taken to another place, new ground where it was. */
  private static GrayRaster moved(GrayRaster a, int dx, int dy) {
    GrayRaster gone = TestAgreement.with(a, TestAgreement.texture(8), X, Y, X, Y, W, H);
    return TestAgreement.with(gone, a, X, Y, X + dx, Y + dy, W, H);
  }

  @Test
  void blockAtAnotherPlace_isFoundWithItsShift() {
    GrayRaster a = TestAgreement.texture(7);
    TileComparison agreement = TestAgreement.of(a, moved(a, 221, -67));
    List<MoveFinder.Move> moves = new MoveFinder(agreement, 1).find(wanted(221, -67));
    assertEquals(1, moves.size(), moves.toString());
    MoveFinder.Move m = moves.get(0);
    assertEquals(221, m.dx(), 0.2);
    assertEquals(-67, m.dy(), 0.2);
    assertTrue(m.similarity() > 0.8, "similarity " + m.similarity());
    // The block has 16 by 12 tiles; windows reach one tile beyond it.
    assertEquals(X / 8, m.tiles().left(), 1);
    assertEquals(Y / 8, m.tiles().top(), 1);
    assertEquals((X + W) / 8, m.tiles().right(), 1);
    assertEquals((Y + H) / 8, m.tiles().bottom(), 1);
  }

  private static List<MoveFinder.Move> movedFromTheBlock(GrayRaster a, GrayRaster b) {
    boolean[] wanted = new boolean[COLUMNS * COLUMNS];
    TestAgreement.mark(wanted, X, Y, W, H);
    return new MoveFinder(TestAgreement.of(a, b), 1).find(wanted);
  }

  @Test
  void groundReplacedByOther_hasNotMoved() {
    GrayRaster a = TestAgreement.texture(7);
    GrayRaster b = TestAgreement.with(a, TestAgreement.texture(8), X, Y, X, Y, W, H);
    assertEquals(List.of(), movedFromTheBlock(a, b));
  }

  /** The block stands at the other place in both: one of two copies is gone, none has moved. */
  @Test
  void copyThatAlwaysStoodThere_isNoMove() {
    GrayRaster one = TestAgreement.texture(7);
    GrayRaster a = TestAgreement.with(one, one, X, Y, X + 221, Y - 67, W, H);
    GrayRaster b = TestAgreement.with(a, TestAgreement.texture(8), X, Y, X, Y, W, H);
    assertEquals(List.of(), movedFromTheBlock(a, b));
  }

  /** Periods of 24 and 20 px over a block that became smaller: it fits itself at many shifts. */
  @Test
  void latticeThatLostAPart_isNotToldAsMoved() {
    GrayRaster ground = TestAgreement.texture(7);
    GrayRaster lattice = lattice(0);
    GrayRaster a = TestAgreement.with(ground, lattice, X, Y, X, Y, 2 * W, 2 * H);
    GrayRaster b = TestAgreement.with(ground, lattice, X, Y, X, Y, W, 2 * H);
    TileComparison agreement = TestAgreement.of(a, b);
    boolean[] wanted = new boolean[COLUMNS * COLUMNS];
    TestAgreement.mark(wanted, X + W, Y, W, 2 * H);
    assertEquals(List.of(), new MoveFinder(agreement, 1).find(wanted));
  }

  /** Periods of 24 and 20 px, with so much of a texture on it that never comes again. */
  private static GrayRaster lattice(double other) {
    float[] texture = TestAgreement.texture(9).array();
    float[] v = new float[TestAgreement.SIDE * TestAgreement.SIDE];
    for (int i = 0; i < v.length; i++) {
      int x = i % TestAgreement.SIDE;
      int y = i / TestAgreement.SIDE;
      v[i] = (float) (0.5 + 0.2 * Math.sin(x * Math.PI / 12) + 0.2 * Math.sin(y * Math.PI / 10));
      v[i] += (float) (other * (texture[i] - 0.5));
    }
    return GrayRaster.over(TestAgreement.SIDE, TestAgreement.SIDE, v);
  }

  /** An array that moved by less than its height fits best at one of many shifts. */
  @Test
  void latticeThatMovedOntoItself_isFoundWithItsOwnShift() {
    GrayRaster ground = TestAgreement.texture(7);
    GrayRaster block = lattice(0.25);
    GrayRaster a = TestAgreement.with(ground, block, X, Y, X, Y, 2 * W, 2 * H);
    GrayRaster rest =
        TestAgreement.with(ground, TestAgreement.texture(8), X, Y, X, Y, 2 * W, 2 * H);
    GrayRaster b = TestAgreement.with(rest, block, X, Y, X + 5, Y + 106, 2 * W, 2 * H);
    boolean[] wanted = new boolean[COLUMNS * COLUMNS];
    TestAgreement.mark(wanted, X, Y, 2 * W + 5, 2 * H + 106);
    MoveFinder finder = new MoveFinder(TestAgreement.of(a, b), 1);
    List<MoveFinder.Move> moves = finder.find(wanted);
    assertEquals(1, moves.size(), moves.toString());
    MoveFinder.Move m = moves.get(0);
    assertEquals(5, m.dx(), 0.2);
    assertEquals(106, m.dy(), 0.2);
    assertEquals(X / 8, m.tiles().left(), 1);
    assertEquals((X + 2 * W) / 8, m.tiles().right(), 1);
    assertEquals(Y / 8, m.tiles().top(), 1);
    assertEquals((Y + 2 * H) / 8, m.tiles().bottom(), 1);

    MoveFinder.Move oneCellOff = new MoveFinder.Move(m.tiles(), 5 - 24, 106, 0.5);
    MoveFinder.Move again = finder.realigned(oneCellOff, new boolean[wanted.length], wanted);
    assertEquals(5, again.dx(), 0.2, "a cell of 24 px farther");
    assertEquals(106, again.dy(), 0.2);
  }

  /** I/O cells of one library are alike, so that one fits at the place of another. */
  @Test
  void shiftsAlongThePadRing_areNotToldAsMoves() {
    GrayRaster ground = TestAgreement.texture(7);
    GrayRaster cells = coarse(TestAgreement.texture(9));
    GrayRaster a = TestAgreement.with(ground, cells, X, Y, X, Y, W, H);
    GrayRaster b = TestAgreement.with(ground, cells, X, Y, X + 221, Y, W, H);
    assertEquals(List.of(ChangeKind.MOVED), kinds(a, b, DieClass.HARD_MACRO), "inside the die");
    assertFalse(kinds(a, b, DieClass.PAD_RING).contains(ChangeKind.MOVED));
  }

  /** Wider structure of more contrast, which looks like no logic. */
  private static GrayRaster coarse(GrayRaster in) {
    GrayRaster out = ImageFilters.gaussian(in, 2);
    for (int i = 0; i < out.array().length; i++) {
      out.array()[i] = 2.5f * out.array()[i] - 0.7f;
    }
    return out;
  }

  /** Of a block that went 221 um along a strip; a pad ring fills the strip in both surveys. */
  private static List<ChangeKind> kinds(GrayRaster a, GrayRaster b, DieClass c) {
    List<PlacedBlock> earlier = new ArrayList<>();
    List<PlacedBlock> later = new ArrayList<>();
    earlier.add(TestAgreement.block(DieClass.HARD_MACRO, X, Y, W, H));
    later.add(TestAgreement.block(DieClass.HARD_MACRO, X + 221, Y, W, H));
    TileComparison agreement = TestAgreement.of(a, b, earlier, later);
    if (c == DieClass.PAD_RING) {
      PlacedBlock ring = TestAgreement.block(c, 0, Y - 40, TestAgreement.SIDE, H + 80);
      earlier.add(ring);
      later.add(ring);
    }
    return new ChangeFinder(
            agreement,
            new OfBoth<>(TestAgreement.classes(earlier), TestAgreement.classes(later)),
            ChangeKindClassifier.blank())
        .proposals(1, false).stream().map(ChangeFinder.ChangeCandidate::kind).toList();
  }
}
