package org.diesurvey.survey;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

class SevereNoticeTest {
  /** Surveys in archives hold these words, so they never change. */
  @Test
  void ids_areThoseOfSurveysThatExist() {
    assertEquals(
        List.of("metal-left", "unlike-training-data", "no-scale", "die-cut", "other-tuning"),
        Arrays.stream(SevereNotice.values()).map(SevereNotice::id).toList());
  }

  @Test
  void itsOwnNoticeIsOne_anotherIsNot() {
    Notice own = SevereNotice.DIE_CUT.says("The die is cut.", "Photograph it whole.");
    assertEquals(new Notice("die-cut", "The die is cut.", "Photograph it whole."), own);
    assertTrue(SevereNotice.holds(own));
    assertFalse(SevereNotice.holds(new Notice("few-levels", "Few.", "More.")));
  }
}
