package org.diesurvey.features;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Arrays;
import java.util.List;
import org.diesurvey.raster.GrayRaster;
import org.diesurvey.raster.LabelRaster;
import org.diesurvey.raster.PixelRect;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The 4 x 4 picture of Haralick et al. 1973, figure 3. Counts one way round: tests of the
 * open-source library scikit-image, test_texture.py, test_output_angles, whose angles count rows
 * downwards. Statistics: exact fractions of those counts (for example 84/576 and 14/24 at 0
 * degrees), natural logarithm.
 */
class CoOccurrenceTest {
  private static final LabelRaster PICTURE =
      LabelRaster.over(4, 4, new byte[] {0, 0, 1, 1, 0, 0, 1, 1, 0, 2, 2, 2, 2, 2, 3, 3});

  @ParameterizedTest(name = "offset ({0}, {1})")
  @CsvSource({
    "1, 0, 2 2 1 0 0 2 0 0 0 0 3 1 0 0 0 1",
    "1, 1, 1 1 3 0 0 1 1 0 0 0 0 2 0 0 0 0",
    "0, 1, 3 0 2 0 0 2 2 0 0 0 1 2 0 0 0 0",
    "-1, 1, 2 0 0 0 1 1 2 0 0 0 2 1 0 0 0 0"
  })
  void oneWayCounts_agreeWithPublishedMatrices(int dx, int dy, String expected) {
    assertEquals(numbers(expected), counts(CoOccurrence.of(PICTURE, 4, dx, dy)));
  }

  @ParameterizedTest(name = "offset ({0}, {1})")
  @CsvSource({
    "1, 0, 4 2 1 0 2 4 0 0 1 0 6 1 0 0 1 2, 24",
    "1, 1, 2 1 3 0 1 2 1 0 3 1 0 2 0 0 2 0, 18",
    "0, 1, 6 0 2 0 0 4 2 0 2 2 2 2 0 0 2 0, 24",
    "-1, 1, 4 1 0 0 1 2 2 0 0 2 4 1 0 0 1 0, 18"
  })
  void symmetricCounts_agreeWithPublishedMatrices(int dx, int dy, String expected, long pairs) {
    CoOccurrence matrix = CoOccurrence.of(PICTURE, 4, dx, dy).symmetric();
    assertEquals(numbers(expected), counts(matrix));
    assertEquals(pairs, matrix.total());
  }

  @ParameterizedTest(name = "offset ({0}, {1})")
  @CsvSource({
    "1, 0, 0.1458333333, 0.5833333333, 0.7195325543, 0.8083333333, 2.0947290475",
    "1, 1, 0.1172839506, 1.7777777778, 0.1627906977, 0.5111111111, 2.2161022481",
    "0, 1, 0.1388888889, 1.0000000000, 0.4857142857, 0.7000000000, 2.0947290475",
    "-1, 1, 0.1481481481, 0.4444444444, 0.7352941176, 0.7777777778, 2.0431918705"
  })
  void statistics_agreeWithExactFractions(
      int dx, int dy, double asm, double contrast, double correlation, double idm, double nats) {
    CoOccurrence matrix = CoOccurrence.of(PICTURE, 4, dx, dy).symmetric();
    assertEquals(asm, matrix.angularSecondMoment(), 1e-9);
    assertEquals(contrast, matrix.contrast(), 1e-9);
    assertEquals(correlation, matrix.correlation(), 1e-9);
    assertEquals(idm, matrix.inverseDifferenceMoment(), 1e-9);
    assertEquals(nats, matrix.entropyNats(), 1e-9);
  }

  /** Shannon's unit: 2.0947 nats are 3.0221 bits. */
  @Test
  void entropyInBits_isTheNatsOverLn2() {
    CoOccurrence matrix = CoOccurrence.of(PICTURE, 4, 1, 0).symmetric();
    assertEquals(3.0221, matrix.entropyBits(), 5e-5);
  }

  /** The paper's 45 degrees, up-right, is what row-down libraries call 135 degrees. */
  @Test
  void opposedOffsets_giveTheSameSymmetricMatrix() {
    assertEquals(
        counts(CoOccurrence.of(PICTURE, 4, 1, -1).symmetric()),
        counts(CoOccurrence.of(PICTURE, 4, -1, 1).symmetric()));
  }

  /** Defined as 1, as scikit-image does; every other statistic is at its limit. */
  @Test
  void constantTile_hasCorrelationOneAndNoEntropy() {
    CoOccurrence matrix = CoOccurrence.of(new LabelRaster(5, 5), 8, 1, 0);
    assertEquals(1, matrix.correlation());
    assertEquals(1, matrix.angularSecondMoment());
    assertEquals(0, matrix.contrast());
    assertEquals(0, matrix.entropyNats());
  }

  @Test
  void quantised_usesEqualStepsAndClampsTheEnds() {
    GrayRaster grey = GrayRaster.over(5, 1, new float[] {-1, 0.1f, 0.3f, 0.5f, 2});
    LabelRaster levels = CoOccurrence.quantised(grey, new PixelRect(0, 0, 5, 1), 4, 0, 1);
    assertEquals(List.of(0, 0, 1, 2, 3), row(levels));
  }

  @Test
  void levelsOutOfRange_areRefused() {
    assertThrows(IllegalArgumentException.class, () -> CoOccurrence.of(PICTURE, 3, 1, 0));
    assertThrows(IllegalArgumentException.class, () -> CoOccurrence.of(PICTURE, 4, 4, 0));
  }

  private static List<Long> counts(CoOccurrence matrix) {
    List<Long> all = new java.util.ArrayList<>();
    for (int i = 0; i < matrix.levels(); i++) {
      for (int j = 0; j < matrix.levels(); j++) {
        all.add(matrix.count(i, j));
      }
    }
    return all;
  }

  private static List<Long> numbers(String text) {
    return Arrays.stream(text.trim().split(" ")).map(Long::valueOf).toList();
  }

  private static List<Integer> row(LabelRaster levels) {
    return java.util.stream.IntStream.range(0, levels.width())
        .mapToObj(x -> levels.get(x, 0))
        .toList();
  }
}
