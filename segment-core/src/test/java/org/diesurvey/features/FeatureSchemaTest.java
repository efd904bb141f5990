package org.diesurvey.features;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.diesurvey.features.FeatureSchema.Direction;
import org.diesurvey.features.FeatureSchema.OwnPeriod;
import org.diesurvey.features.FeatureSchema.Window;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Columns that are worked out, against the list of names. */
class FeatureSchemaTest {
  private static String name(int column) {
    return FeatureSchema.CURRENT.names().get(column);
  }

  @ParameterizedTest
  @CsvSource({
    "SMALL, FIRM, RISE, w03 firm own period rise",
    "SMALL, LOOSE, OVER_ROWS, w03 loose own period over rows",
    "MIDDLE, FIRM, LAG, w07 firm own period",
    "MIDDLE, LOOSE, RISE, w07 loose own period rise",
    "LARGE, FIRM, REPEATS, w15 firm own period repeats",
    "LARGE, LOOSE, OVER_ROWS, w15 loose own period over rows"
  })
  void columns_holdWhatTheyAreNamed(Window w, Direction d, OwnPeriod what, String name) {
    assertEquals(name, name(FeatureSchema.column(w, d, what)));
  }

  @Test
  void windows_beginWithTheirFirstPeak() {
    assertEquals("w03 firm peak from 0.8 um", name(FeatureSchema.column(Window.SMALL)));
    assertEquals("w07 firm peak from 0.8 um", name(FeatureSchema.column(Window.MIDDLE)));
    assertEquals("w15 firm peak from 0.8 um", name(FeatureSchema.column(Window.LARGE)));
  }

  @Test
  void samplingStandsBehindTheWindows() {
    assertEquals("sampling", name(FeatureSchema.samplingColumn()));
  }
}
