package org.diesurvey.photo;

import java.util.OptionalDouble;
import org.diesurvey.raster.PixelRect;

/** Pixels whose samples are at hand as they were stored. */
interface StoredPixels extends PixelSource {
  /**
   * Colours of a window as 0xRRGGBB, each channel looked up.
   *
   * @param table 8-bit level of every value that a sample can have
   */
  void readRgb(PixelRect window, int[] target, byte[] table);

  /**
   * The level, 0 to 1, that stands for no light, in samples that were scaled from other numbers; it
   * may lie outside of 0 to 1. Empty for levels of a camera, where that is 0.
   */
  default OptionalDouble zero() {
    return OptionalDouble.empty();
  }
}
