package org.diesurvey.pipeline;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import org.diesurvey.calibration.Calibration;
import org.diesurvey.calibration.ScaleOrigin;
import org.diesurvey.photo.PhotoInfo;
import org.diesurvey.photo.PhotoInfo.TaggedScale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class PhotoScaleTest {
  private static PhotoInfo photo(Optional<TaggedScale> tag) {
    return new PhotoInfo("die.tif", "0".repeat(64), 1, "TIFF", 100, 100, 8, 1, tag);
  }

  private static PhotoInfo tagged(double umPerPx) {
    return photo(Optional.of(new TaggedScale(umPerPx, "TIFF XResolution/ResolutionUnit")));
  }

  /** An inch is 25.4 mm exactly, so V dpi is 25 400 / V um/px. */
  @ParameterizedTest
  @ValueSource(doubles = {72, 96, 150, 300, 600, 1200})
  void commonDefaultDpi_isNoMicroscopeScale(double dpi) {
    PhotoScale scale = PhotoScale.choose(ScaleInput.NONE, true, tagged(25_400 / dpi));
    assertInstanceOf(ScaleInput.None.class, scale.input());
    assertEquals("tagged-scale-ignored", scale.notice().orElseThrow().id());
  }

  @Test
  void microscopeTag_isUsedAndMarkedAsSuch() {
    PhotoScale scale = PhotoScale.choose(ScaleInput.NONE, true, tagged(0.43));
    Calibration c = assertInstanceOf(ScaleInput.Known.class, scale.input()).calibration();
    assertEquals(ScaleOrigin.PHOTO_METADATA, c.origin());
    assertEquals(0.43, c.umPerPx().value());
    assertTrue(c.umPerPx().standardUncertainty() > 0);
    assertTrue(c.note().contains("assumed"), c.note());
  }

  @Test
  void statedScale_winsOverTheTag() {
    ScaleInput stated = new ScaleInput.Known(Calibration.ofPixelPitch(0.5, 0.001));
    assertEquals(stated, PhotoScale.choose(stated, true, tagged(0.43)).input());
  }

  @Test
  void noScale_leavesTheTagAlone() {
    PhotoScale scale = PhotoScale.choose(ScaleInput.NONE, false, tagged(0.43));
    assertInstanceOf(ScaleInput.None.class, scale.input());
    assertTrue(scale.notice().isEmpty());
  }

  @Test
  void photoWithoutTag_hasNoScale() {
    PhotoScale scale = PhotoScale.choose(ScaleInput.NONE, true, photo(Optional.empty()));
    assertInstanceOf(ScaleInput.None.class, scale.input());
  }
}
