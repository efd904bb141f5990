package org.diesurvey.inspection;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.diesurvey.raster.Axis;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class RepeatFinderTest {
  private static GreyPhoto die(long seed) {
    return GreyPhoto.of(GreyPhoto.clean(seed, 0.6));
  }

  @ParameterizedTest(name = "seed {0}, vertical {1}, {2} px")
  @CsvSource({
    "7, true, 12",
    "7, false, 40",
    "11, true, 40",
    "20, true, 120",
    "21, false, 25",
    "51, false, 60"
  })
  void repeatedStrip_isFoundAtItsPlace(long seed, boolean vertical, int width) {
    GreyPhoto photo = die(seed).repeated(vertical, 400, width).noisy(0.004, 3);
    List<RepeatedStrip> found = RepeatFinder.find(photo);
    assertEquals(1, found.size(), found.toString());
    assertEquals(vertical ? Axis.Y : Axis.X, found.get(0).along());
    assertEquals(400, found.get(0).placePx(), 3);
    assertEquals(width, found.get(0).widthPx());
  }

  @ParameterizedTest(name = "seed {0}")
  @ValueSource(longs = {1, 4, 7, 11, 20})
  void photographWithoutRepetition_givesNone(long seed) {
    List<RepeatedStrip> found = RepeatFinder.find(die(seed));
    assertTrue(found.isEmpty(), found.toString());
  }
}
