package org.diesurvey.inspection;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import org.diesurvey.photo.Levels;
import org.diesurvey.photo.PhotoInfo;
import org.diesurvey.photo.Reading;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

class FocusJudgeTest {
  private static GreyPhoto sharp;
  private static GreyPhoto soft;

  @BeforeAll
  static void draw() {
    sharp = GreyPhoto.of(GreyPhoto.plain(20, 1.5));
    soft = sharp.blurred(3);
  }

  static Inspection inspection(GreyPhoto photo) {
    PhotoInfo info =
        new PhotoInfo(
            "drawn",
            "0".repeat(64),
            1,
            "PNG",
            photo.width(),
            photo.height(),
            8,
            1,
            Optional.empty());
    return PhotoInspector.inspect(
        info,
        Reading.PLAIN,
        new Levels(8, 8, 0, 1),
        photo,
        Optional.empty(),
        photo.whole(),
        InspectionSettings.defaults());
  }

  /** Mixes both pictures: weight 1 is out of focus. */
  private static FocusMap mixed(GreyPhoto.Grey weight) {
    GreyPhoto photo = sharp.copy();
    for (int y = 0; y < photo.height(); y++) {
      for (int x = 0; x < photo.width(); x++) {
        double w = weight.at(x / (double) photo.width(), y / (double) photo.height());
        float v = (float) ((1 - w) * sharp.raster().get(x, y) + w * soft.raster().get(x, y));
        photo.raster().set(x, y, v);
      }
    }
    return inspection(photo.noisy(0.004, 1)).capture().focus();
  }

  @ParameterizedTest
  @EnumSource(FocusMap.Side.class)
  void softSide_isATilt(FocusMap.Side side) {
    FocusMap map =
        mixed(
            (u, v) -> {
              double from =
                  switch (side) {
                    case LEFT -> 1 - u;
                    case RIGHT -> u;
                    case TOP -> 1 - v;
                    case BOTTOM -> v;
                  };
              return from > 0.62 ? 1 : 0;
            });
    assertEquals(side, map.tilt().orElseThrow().softSide());
    // 3 px were drawn; the small windows of so small a photograph read 1.9 to 2.5.
    assertEquals(2.4, map.tilt().orElseThrow().softPx(), 0.7);
  }

  @Test
  void softCorner_isNamed() {
    FocusMap map = mixed((u, v) -> u > 0.7 && v < 0.3 ? 1 : 0);
    assertTrue(map.tilt().isEmpty());
    assertEquals(1, map.softCorners().size());
    assertEquals(FocusMap.Corner.TOP_RIGHT, map.softCorners().get(0).corner());
  }

  @ParameterizedTest(name = "seed {0}")
  @ValueSource(longs = {3, 7, 11, 20, 28})
  void sharpPhotograph_givesNoAlarm(long seed) {
    FocusMap map = inspection(GreyPhoto.of(GreyPhoto.clean(seed, 0.8))).capture().focus();
    assertTrue(map.tilt().isEmpty() && map.softCorners().isEmpty(), map.toString());
  }
}
