package org.diesurvey.scoring;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import org.diesurvey.scoring.ReliabilityTable.Answer;
import org.junit.jupiter.api.Test;

class ReliabilityTableTest {
  /**
   * Example in the documentation of the open-source library torchmetrics, BinaryCalibrationError
   * (values from memory, recomputed by hand: bins (0.25, none right, 2 of 5) and (0.68333, all
   * right, 3 of 5)): L1 0.2900, L2 0.2918, maximum 0.3167.
   */
  @Test
  void errors_agreeWithPublishedExample() {
    ReliabilityTable table =
        ReliabilityTable.of(
            List.of(
                new Answer(0.25, false, 1),
                new Answer(0.25, false, 1),
                new Answer(0.55, true, 1),
                new Answer(0.75, true, 1),
                new Answer(0.75, true, 1)),
            2);
    assertEquals(0.2900, table.expectedError(), 5e-5);
    assertEquals(0.2918, table.rootMeanSquareError(), 5e-5);
    assertEquals(0.3167, table.maximumError(), 5e-5);
    assertEquals(0.68333, table.bins().get(1).meanConfidence(), 1e-5);
  }

  /** Bins are (low, high], and 0 goes to the first one. */
  @Test
  void binEdges_belongToTheLowerBin() {
    assertEquals(0, ReliabilityTable.binOf(0, 10));
    assertEquals(0, ReliabilityTable.binOf(0.1, 10));
    assertEquals(1, ReliabilityTable.binOf(0.1000001, 10));
    assertEquals(9, ReliabilityTable.binOf(1, 10));
    assertThrows(IllegalArgumentException.class, () -> ReliabilityTable.binOf(1.01, 10));
    assertThrows(IllegalArgumentException.class, () -> ReliabilityTable.binOf(Double.NaN, 10));
  }

  @Test
  void weights_countLikeRepeatedAnswers() {
    Answer heavy = new Answer(0.9, true, 3);
    Answer light = new Answer(0.9, true, 1);
    Answer wrong = new Answer(0.7, false, 1);
    assertEquals(
        ReliabilityTable.of(List.of(light, light, light, wrong), 10).expectedError(),
        ReliabilityTable.of(List.of(heavy, wrong), 10).expectedError(),
        1e-12);
  }

  @Test
  void sumOfTables_isTheTableOfAllAnswers() {
    List<Answer> a = List.of(new Answer(0.9, true, 2), new Answer(0.3, false, 1));
    List<Answer> b = List.of(new Answer(0.95, false, 1));
    List<Answer> all = List.of(a.get(0), a.get(1), b.get(0));
    assertEquals(
        ReliabilityTable.of(all, 10).expectedError(),
        ReliabilityTable.of(a, 10).plus(ReliabilityTable.of(b, 10)).expectedError(),
        1e-12);
    assertEquals(1, ReliabilityTable.of(all, 10).normalised().totalWeight(), 1e-12);
  }

  @Test
  void emptyTable_hasNoError() {
    ReliabilityTable empty = ReliabilityTable.empty(10);
    assertEquals(0, empty.expectedError());
    assertEquals(0, empty.maximumError());
    assertEquals(empty, empty.normalised());
  }
}
