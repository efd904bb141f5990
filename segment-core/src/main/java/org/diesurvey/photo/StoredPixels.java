package org.diesurvey.photo;

import org.diesurvey.raster.PixelRect;

/** Pixels whose samples are at hand as they were stored. */
interface StoredPixels extends PixelSource {
  /**
   * Colours of a window as 0xRRGGBB, each channel looked up.
   *
   * @param table 8-bit level of every value that a sample can have
   */
  void readRgb(PixelRect window, int[] target, byte[] table);
}
