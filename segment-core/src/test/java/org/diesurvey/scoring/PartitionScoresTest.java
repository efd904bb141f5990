package org.diesurvey.scoring;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.OptionalInt;
import org.diesurvey.scoring.PartitionScores.AdaptedRand;
import org.diesurvey.scoring.PartitionScores.VariationOfInformation;
import org.junit.jupiter.api.Test;

/** Values: tests of the open-source library scikit-image, test_segmentation_metrics.py. */
class PartitionScoresTest {
  private static final OptionalInt ALL = OptionalInt.empty();

  /** test_vi: one bit in all. */
  @Test
  void twoMergesAndNoSplit_areOneBit() {
    VariationOfInformation vi =
        PartitionScores.variationOfInformation(new int[] {1, 2, 3, 4}, new int[] {1, 1, 8, 8}, ALL);
    assertEquals(1, vi.total(), 1e-12);
    assertEquals(1, vi.merges(), 1e-12);
    assertEquals(0, vi.splits(), 1e-12);
  }

  /** test_vi_ignore_labels: splits 0, merges 2/3 bit. */
  @Test
  void ignoredPart_isLeftOut() {
    VariationOfInformation vi =
        PartitionScores.variationOfInformation(
            new int[] {1, 0, 2, 3}, new int[] {1, 1, 1, 0}, OptionalInt.of(0));
    assertEquals(0, vi.splits(), 1e-12);
    assertEquals(2.0 / 3, vi.merges(), 1e-9);
  }

  /** test_are: error 1/3, precision 1/2, recall 1; with alpha 0 and 1 the error is 0 and 1/2. */
  @Test
  void adaptedRand_agreesWithPublishedExample() {
    int[] truth = {2, 1, 1, 2};
    int[] test = {1, 2, 3, 1};
    AdaptedRand half = PartitionScores.adaptedRand(truth, test, 0.5, ALL);
    assertEquals(1.0 / 3, half.error(), 1e-9);
    assertEquals(0.5, half.precision(), 1e-12);
    assertEquals(1, half.recall(), 1e-12);
    assertEquals(0, PartitionScores.adaptedRand(truth, test, 0, ALL).error(), 1e-12);
    assertEquals(0.5, PartitionScores.adaptedRand(truth, test, 1, ALL).error(), 1e-12);
  }

  @Test
  void renamedParts_areTheSameDivision() {
    int[] a = {1, 1, 2, 2, 3};
    int[] b = {9, 9, -1, -1, 0};
    assertEquals(0, PartitionScores.variationOfInformation(a, b, ALL).total(), 1e-12);
    assertEquals(0, PartitionScores.adaptedRand(a, b, 0.5, ALL).error(), 1e-12);
  }

  @Test
  void differentLengthsOrNothingToCompare_areRefused() {
    assertThrows(
        IllegalArgumentException.class,
        () -> PartitionScores.variationOfInformation(new int[2], new int[3], ALL));
    assertThrows(
        IllegalArgumentException.class,
        () -> PartitionScores.variationOfInformation(new int[2], new int[2], OptionalInt.of(0)));
    assertThrows(
        IllegalArgumentException.class,
        () -> PartitionScores.adaptedRand(new int[] {1, 2}, new int[] {1, 2}, 0.5, ALL));
  }
}
