package org.diesurvey.comparison.changes;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.Optional;
import java.util.SplittableRandom;
import org.diesurvey.comparison.document.ChangeKind;
import org.junit.jupiter.api.Test;

class ChangeKindClassifierTest {
  private static final int CLASSES = ChangeKindClassifier.NOTHING + 1;

  /** The figure with the number of the class is high; all else is noise. */
  private static float[] row(int label, SplittableRandom random) {
    float[] row = new float[CandidateFigures.SIZE];
    for (int f = 0; f < row.length; f++) {
      row[f] = (float) (random.nextDouble() - 0.5);
    }
    row[label] += 3;
    return row;
  }

  private static ChangeKindClassifier trained() {
    SplittableRandom random = new SplittableRandom(3);
    float[][] rows = new float[2100][];
    int[] labels = new int[rows.length];
    for (int i = 0; i < rows.length; i++) {
      labels[i] = i % CLASSES;
      rows[i] = row(labels[i], random);
    }
    return ChangeKindClassifier.train(rows, labels);
  }

  @Test
  void kindsAreTold_nothingIsNot_andTheFileKeepsThem() throws IOException {
    ChangeKindClassifier network = ChangeKindClassifier.read(trained().write());
    SplittableRandom random = new SplittableRandom(4);
    for (int i = 0; i < 70; i++) {
      int k = i % CLASSES;
      Optional<ChangeKind> told =
          network.of(row(k, random), ChangeKind.MOVED).map(ChangeKindClassifier.Verdict::kind);
      Optional<ChangeKind> wanted =
          k == ChangeKindClassifier.NOTHING
              ? Optional.empty()
              : Optional.of(ChangeKind.values()[k]);
      assertEquals(wanted, told);
    }
  }

  @Test
  void whatTheRulesDidNotMove_isNoMove() {
    ChangeKindClassifier network = trained();
    float[] moved = row(ChangeKind.MOVED.ordinal(), new SplittableRandom(5));
    ChangeKindClassifier.Verdict told = network.of(moved, ChangeKind.MOVED).orElseThrow();
    assertEquals(ChangeKind.MOVED, told.kind());
    assertTrue(told.confidence() > 0.5 && told.confidence() < 1, told.toString());
    ChangeKindClassifier.Verdict other = network.of(moved, ChangeKind.GONE).orElseThrow();
    assertTrue(other.kind() != ChangeKind.MOVED && other.confidence() < 0.5, other.toString());
  }

  @Test
  void trainsToTheSameBytes() throws IOException {
    assertArrayEquals(trained().write(), trained().write());
  }
}
