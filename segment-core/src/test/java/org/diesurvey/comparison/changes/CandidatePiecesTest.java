package org.diesurvey.comparison.changes;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.diesurvey.classification.DieClass;
import org.diesurvey.comparison.changes.ChangeFinder.ChangeCandidate;
import org.diesurvey.comparison.changes.ChangeFinder.ConfirmedChange;
import org.diesurvey.comparison.document.ChangeKind;
import org.diesurvey.comparison.tiles.TileSet;
import org.junit.jupiter.api.Test;

class CandidatePiecesTest {
  private static final int COLUMNS = 60;
  private static final Optional<DieClass> MACRO = Optional.of(DieClass.HARD_MACRO);
  private static final Optional<DieClass> LOGIC = Optional.of(DieClass.LOGIC);

  private static TileSet box(int left, int top, int w, int h) {
    boolean[] mask = new boolean[COLUMNS * 60];
    for (int y = top; y < top + h; y++) {
      Arrays.fill(mask, y * COLUMNS + left, y * COLUMNS + left + w, true);
    }
    return new TileSet(COLUMNS, mask);
  }

  private static ConfirmedChange gone(TileSet at, double confidence) {
    return new ConfirmedChange(
        new ChangeCandidate(ChangeKind.GONE, MACRO, LOGIC, at, null, null), confidence);
  }

  private static ConfirmedChange fresh(TileSet at) {
    return new ConfirmedChange(
        new ChangeCandidate(ChangeKind.NEW, LOGIC, MACRO, null, at, null), 0.7);
  }

  private static ConfirmedChange moved(TileSet from, TileSet to) {
    MoveFinder.Move move = new MoveFinder.Move(from, 0, 80, 0.9);
    return new ConfirmedChange(
        new ChangeCandidate(ChangeKind.MOVED, MACRO, MACRO, from, to, move), 0.9);
  }

  private static List<ConfirmedChange> together(ConfirmedChange... told) {
    return new CandidatePieces(COLUMNS).together(List.of(told));
  }

  @Test
  void piecesSideBySide_areOneChange_withTheConfidenceOfTheLargest() {
    List<ConfirmedChange> out =
        together(
            gone(box(4, 4, 6, 10), 0.5),
            gone(box(22, 4, 6, 10), 0.4),
            gone(box(11, 4, 10, 10), 0.8));
    assertEquals(1, out.size());
    assertEquals(0.8, out.get(0).confidence());
    TileSet all = out.get(0).place().inA();
    assertEquals(List.of(4, 4, 28, 14), List.of(all.left(), all.top(), all.right(), all.bottom()));
    assertEquals(1, all.fill(), "the gaps are closed");
  }

  @Test
  void placesApart_orOfOtherKinds_stay() {
    ConfirmedChange a = gone(box(4, 4, 6, 10), 0.5);
    assertEquals(2, together(a, gone(box(13, 4, 6, 10), 0.5)).size());
    assertEquals(2, together(a, fresh(box(10, 4, 6, 10))).size());
    ConfirmedChange memory =
        new ConfirmedChange(
            new ChangeCandidate(
                ChangeKind.GONE,
                Optional.of(DieClass.MEMORY_ARRAY),
                LOGIC,
                box(10, 4, 6, 10),
                null,
                null),
            0.5);
    assertEquals(2, together(a, memory).size());
  }

  @Test
  void whatLiesInTheBoxOfAMovedBlock_wentWithIt() {
    ConfirmedChange move = moved(box(4, 4, 20, 20), box(4, 14, 20, 20));
    List<ConfirmedChange> out =
        together(move, gone(box(20, 5, 5, 4), 0.6), gone(box(40, 5, 5, 4), 0.6));
    assertEquals(2, out.size());
    assertSame(move, out.get(0));
    assertEquals(40, out.get(1).place().inA().left());
  }
}
