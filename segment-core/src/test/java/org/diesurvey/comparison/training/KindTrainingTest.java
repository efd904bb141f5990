package org.diesurvey.comparison.training;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Optional;
import org.diesurvey.comparison.ComparisonScores.TrueChange;
import org.diesurvey.comparison.changes.ChangeKindClassifier;
import org.diesurvey.comparison.document.ChangeKind;
import org.diesurvey.survey.Point;
import org.junit.jupiter.api.Test;

class KindTrainingTest {
  private static final TrueChange GONE =
      new TrueChange(
          ChangeKind.GONE, List.of(List.of(100.0, 100.0, 200.0, 200.0)), Optional.empty());
  private static final TrueChange CONTENT =
      new TrueChange(
          ChangeKind.TEXTURE, List.of(List.of(200.0, 100.0, 260.0, 200.0)), Optional.empty());
  private static final TrueChange MOVED =
      new TrueChange(
          ChangeKind.MOVED,
          List.of(List.of(400.0, 100.0, 500.0, 200.0), List.of(450.0, 100.0, 550.0, 200.0)),
          Optional.of(new Point(50, 0)));

  private static int label(ChangeKind proposed, double left, double right) {
    return KindTraining.label(
        List.of(new double[] {left, 100, right, 200}), proposed, List.of(GONE, CONTENT, MOVED));
  }

  @Test
  void placeOfOneChange_hasItsKind_farFromAllNothing() {
    assertEquals(ChangeKind.GONE.ordinal(), label(ChangeKind.NEW, 98, 190));
    assertEquals(ChangeKindClassifier.NOTHING, label(ChangeKind.GONE, 700, 800));
  }

  @Test
  void placeOfTwoChanges_hasTheKindThatWasProposed_elseThatOfTheLarger() {
    assertEquals(ChangeKind.TEXTURE.ordinal(), label(ChangeKind.TEXTURE, 95, 265));
    assertEquals(ChangeKind.GONE.ordinal(), label(ChangeKind.NEW, 95, 265));
  }

  @Test
  void pieceOfMovedBlock_isGoneOrNewByItsPlace_unlessAMoveWasProposed() {
    assertEquals(ChangeKind.GONE.ordinal(), label(ChangeKind.TEXTURE, 395, 455));
    assertEquals(ChangeKind.NEW.ordinal(), label(ChangeKind.TEXTURE, 495, 555));
    assertEquals(-1, label(ChangeKind.TEXTURE, 400, 550));
    assertEquals(ChangeKind.MOVED.ordinal(), label(ChangeKind.MOVED, 400, 500));
  }
}
