package org.diesurvey.interchange;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.diesurvey.DieInputException;
import org.diesurvey.classification.DieClass;
import org.diesurvey.survey.Outline;
import org.diesurvey.survey.Point;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The borders of what is accepted. */
class OutlineChecksTest {
  private static OutlineSet set(ClassedOutline... outlines) {
    return new OutlineSet(
        OutlineFrame.DIE_UM,
        Optional.of(new Extent(1000, 500)),
        PhotoLink.UNKNOWN,
        List.of(outlines));
  }

  private static ClassedOutline box(String id, double x, double y, double w, double h) {
    return ClassedOutline.region(id, DieClass.LOGIC, TestOutlines.box(x, y, w, h));
  }

  private static OutlineSet checked(ClassedOutline... outlines) {
    return OutlineChecks.checked(set(outlines), "f");
  }

  private static String refusal(ClassedOutline... outlines) {
    return assertThrows(DieInputException.class, () -> checked(outlines)).getMessage();
  }

  /** One per cent of the longer side may stick out: 10 um of 1000. */
  @ParameterizedTest
  @CsvSource({
    "-10, 0, 50, 50, true", "-10.1, 0, 50, 50, false", "0, -10, 50, 50, true",
    "0, -10.1, 50, 50, false", "960, 0, 50, 50, true", "960.1, 0, 50, 50, false",
    "0, 460, 50, 50, true", "0, 460.1, 50, 50, false"
  })
  void outlines_mayReachALittleOverTheBorder(
      double x, double y, double w, double h, boolean accepted) {
    if (accepted) {
      assertEquals(1, checked(box("A", x, y, w, h)).outlines().size());
    } else {
      assertTrue(refusal(box("A", x, y, w, h)).contains("outside the die of 1000 x 500 um"));
    }
  }

  /** One per cent of the smaller may be shared: 1 um of a width of 100. */
  @Test
  void regions_mayShareOnePerCentOfTheSmaller() {
    ClassedOutline large = box("A", 0, 0, 500, 100);
    assertEquals(2, checked(large, box("B", 499, 0, 100, 100)).outlines().size());
    assertTrue(
        refusal(large, box("B", 498.9, 0, 100, 100))
            .contains("'B' overlaps 'A' by 110 um2 (1 % of the smaller)"));
  }

  @Test
  void halfOfABitCellArray_mustLieInItsMemory() {
    ClassedOutline memory =
        ClassedOutline.region("M", DieClass.MEMORY_ARRAY, TestOutlines.box(0, 0, 100, 100));
    assertEquals(
        2,
        checked(memory, ClassedOutline.bitCells("M.1", "M", TestOutlines.box(80, 0, 40, 50)))
            .outlines()
            .size());
    assertTrue(
        refusal(memory, ClassedOutline.bitCells("M.1", "M", TestOutlines.box(80.1, 0, 40, 50)))
            .contains("'M.1' lies mostly outside its memory 'M'"));
  }

  @Test
  void ids_areUnique_andOfABoundedLength() {
    assertTrue(refusal(box("A", 0, 0, 9, 9), box("A", 20, 0, 9, 9)).contains("'A' appears twice"));
    assertEquals(1, checked(box("x".repeat(200), 0, 0, 9, 9)).outlines().size());
    assertTrue(refusal(box("x".repeat(201), 0, 0, 9, 9)).contains("an id of 201 characters"));
  }

  /** 10^6 um is accepted, what is beyond is on no die; so is a hole's corner. */
  @Test
  void corners_areFiniteAndOnADie() {
    OutlineSet wide =
        new OutlineSet(
            OutlineFrame.DIE_UM,
            Optional.empty(),
            PhotoLink.UNKNOWN,
            List.of(box("A", -1e6, -1e6, 2e6, 2e6)));
    assertEquals(1, OutlineChecks.checked(wide, "f").outlines().size());
    for (double bad : new double[] {1.0001e6, -1.0001e6, Double.NaN, Double.POSITIVE_INFINITY}) {
      for (Point p : List.of(new Point(bad, 5), new Point(5, bad))) {
        List<Point> ring = List.of(new Point(1, 1), p, new Point(4, 8));
        Outline shell = new Outline(ring, List.of());
        Outline hole = new Outline(TestOutlines.box(0, 0, 90, 90).shell(), List.of(ring));
        for (Outline o : List.of(shell, hole)) {
          String said = refusal(ClassedOutline.region("A", DieClass.LOGIC, o));
          assertTrue(said.contains("which is on no die"), said);
        }
      }
    }
  }

  @Test
  void outlinesAndCorners_areCounted() {
    ClassedOutline[] many = new ClassedOutline[OutlineChecks.MOST_OUTLINES + 1];
    Arrays.fill(many, box("A", 0, 0, 9, 9));
    assertTrue(refusal(many).contains("there are " + many.length + " outlines"));
    List<Point> half = TestOutlines.star(500, 250, 200, OutlineChecks.MOST_CORNERS / 2);
    Outline tooMany = new Outline(half, List.of(half, half.subList(0, 3)));
    assertTrue(
        refusal(ClassedOutline.region("A", DieClass.LOGIC, tooMany))
            .contains("there are 1000003 corners"));
  }

  /** What needs no mending stays the object it was. */
  @Test
  void soundOutline_isKeptAsItIs() {
    ClassedOutline a = box("A", 0, 0, 9, 9);
    assertSame(a, checked(a).outlines().get(0));
  }

  /** Two holes with a common edge are one, a hole along the border is cut out. */
  @Test
  void holesThatTouchAlongAnEdge_areJoined() {
    Outline shell = TestOutlines.box(0, 0, 100, 100);
    Outline o =
        new Outline(
            shell.shell(),
            List.of(
                TestOutlines.box(20, 20, 20, 20).shell(),
                TestOutlines.box(40, 20, 20, 20).shell()));
    Outline one = checked(ClassedOutline.region("A", DieClass.LOGIC, o)).outlines().get(0).shape();
    assertEquals(1, one.holes().size());
    assertEquals(100 * 100 - 40 * 20, OutlineShapes.polygon(one).getArea(), 1e-9);
    Outline border = new Outline(shell.shell(), List.of(TestOutlines.box(90, 40, 10, 20).shell()));
    Outline cut =
        checked(ClassedOutline.region("A", DieClass.LOGIC, border)).outlines().get(0).shape();
    assertEquals(0, cut.holes().size());
    assertEquals(100 * 100 - 200, OutlineShapes.polygon(cut).getArea(), 1e-9);
  }

  /** A hole that cuts the outline in two, and one that overlaps another: no one area was meant. */
  @Test
  void holesThatLeaveNoOneArea_areRefused() {
    List<Point> shell = TestOutlines.box(0, 0, 100, 100).shell();
    Outline cutApart = new Outline(shell, List.of(TestOutlines.box(40, 0, 20, 100).shell()));
    assertTrue(refusal(ClassedOutline.region("A", DieClass.LOGIC, cutApart)).contains("redraw it"));
    Outline overlap =
        new Outline(
            shell,
            List.of(
                TestOutlines.box(20, 20, 40, 40).shell(),
                TestOutlines.box(30, 30, 50, 40).shell()));
    assertTrue(refusal(ClassedOutline.region("A", DieClass.LOGIC, overlap)).contains("redraw it"));
    Outline inHole =
        new Outline(
            shell,
            List.of(
                TestOutlines.box(20, 20, 60, 60).shell(),
                TestOutlines.box(30, 30, 20, 20).shell()));
    assertTrue(
        refusal(ClassedOutline.region("A", DieClass.LOGIC, inHole)).contains("a hole in a hole"));
  }

  @Test
  void anotherPhotograph_isTold() {
    String mine = "a".repeat(64);
    PhotoLink link = new PhotoLink(Optional.empty(), Optional.of(mine), OptionalDouble.empty());
    OutlineChecks.requirePhoto(link, "A".repeat(64), "f");
    OutlineChecks.requirePhoto(PhotoLink.UNKNOWN, "b".repeat(64), "f");
    String said =
        assertThrows(
                DieInputException.class,
                () -> OutlineChecks.requirePhoto(link, "b".repeat(64), "f"))
            .getMessage();
    assertTrue(said.contains("photograph (SHA-256 aaaaaaaaaaaa..., here bbbbbbbbbbbb...)"), said);
  }
}
