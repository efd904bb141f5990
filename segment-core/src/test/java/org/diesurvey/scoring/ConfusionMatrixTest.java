package org.diesurvey.scoring;

import static org.diesurvey.classification.DieClass.HARD_MACRO;
import static org.diesurvey.classification.DieClass.LOGIC;
import static org.diesurvey.classification.DieClass.MEMORY_ARRAY;
import static org.diesurvey.classification.DieClass.OFF_DIE;
import static org.diesurvey.classification.DieClass.PAD_RING;
import static org.diesurvey.classification.DieClass.UNCLEAR;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.diesurvey.raster.LabelRaster;
import org.junit.jupiter.api.Test;

class ConfusionMatrixTest {
  /** Own arithmetic from the definitions: TP 80, FP 10, FN 30 give IoU 2/3 and F1 0.8. */
  @Test
  void iouAndF1_followTheirDefinitions() {
    LabelRaster truth = new LabelRaster(120, 1);
    LabelRaster predicted = new LabelRaster(120, 1);
    Maps.paint(truth, 1, 0, 0, 110, 1);
    Maps.paint(truth, 3, 110, 0, 10, 1);
    Maps.paint(predicted, 3, 0, 0, 30, 1);
    Maps.paint(predicted, 1, 30, 0, 90, 1);
    ConfusionMatrix m = ConfusionMatrix.of(truth, predicted);
    double iou = m.iou(MEMORY_ARRAY).orElseThrow();
    assertEquals(0.666667, iou, 1e-6);
    assertEquals(0.8, m.f1(MEMORY_ARRAY).orElseThrow(), 1e-12);
    assertEquals(2 * iou / (1 + iou), m.f1(MEMORY_ARRAY).orElseThrow(), 1e-12);
    assertEquals(80.0 / 90, m.precision(MEMORY_ARRAY).orElseThrow(), 1e-12);
    assertEquals(80.0 / 110, m.recall(MEMORY_ARRAY).orElseThrow(), 1e-12);
  }

  @Test
  void unscoredPixels_countNowhere() {
    ConfusionMatrix m = ConfusionMatrix.of(Maps.of("11??"), Maps.of("1133"));
    assertEquals(1, m.iou(MEMORY_ARRAY).orElseThrow());
    assertEquals(2, m.scored());
    assertTrue(m.iou(LOGIC).isEmpty());
  }

  @Test
  void unclearPixels_areMissed() {
    ConfusionMatrix m = ConfusionMatrix.of(Maps.of("1111"), Maps.of("11??"));
    assertEquals(0.5, m.iou(MEMORY_ARRAY).orElseThrow());
    assertEquals(2, m.count(MEMORY_ARRAY, UNCLEAR));
    assertEquals(1, m.precision(MEMORY_ARRAY).orElseThrow());
  }

  @Test
  void classGivenToOffDiePixels_isAFalsePositive() {
    ConfusionMatrix m = ConfusionMatrix.of(Maps.of("0044"), Maps.of("0444"));
    assertEquals(2.0 / 3, m.iou(PAD_RING).orElseThrow(), 1e-12);
    assertEquals(1, m.count(OFF_DIE, PAD_RING));
    assertEquals(2, m.scoredOnDie());
  }

  @Test
  void meanIou_goesOverTheClassesOfTheTruthOnly() {
    ConfusionMatrix m = ConfusionMatrix.of(Maps.of("001133"), Maps.of("001123"));
    assertEquals(0, m.iou(HARD_MACRO).orElseThrow());
    assertEquals((1 + 0.5) / 2, m.meanIou().orElseThrow(), 1e-12);
  }

  @Test
  void otherSizesOrCodes_areRefused() {
    assertThrows(
        IllegalArgumentException.class,
        () -> ConfusionMatrix.of(new LabelRaster(2, 2), new LabelRaster(2, 3)));
    assertThrows(
        IllegalArgumentException.class, () -> ConfusionMatrix.of(Maps.of("5"), Maps.of("1")));
    for (String bad : new String[] {"5", "7"}) {
      assertThrows(
          IllegalArgumentException.class, () -> ConfusionMatrix.of(Maps.of("1"), Maps.of(bad)));
    }
  }
}
