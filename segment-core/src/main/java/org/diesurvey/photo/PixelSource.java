package org.diesurvey.photo;

import java.io.Closeable;
import org.diesurvey.Supported;
import org.diesurvey.raster.PixelRect;

/**
 * The one seam through which pixels enter: windows of a photograph, read on demand. A row band is a
 * window of full width. A source of a tiled file reads only what the window touches; a source of a
 * sequential format holds the decoded bytes. Sources may be read from several threads at once.
 */
@Supported
public interface PixelSource extends Closeable {
  /** Columns of the photograph. */
  int width();

  /** Rows of the photograph. */
  int height();

  /**
   * Grey values of a window: the luma of ITU-R BT.601 (0.299 R + 0.587 G + 0.114 B) of the stored
   * values, scaled so that the largest storable value is 1; alpha is ignored.
   *
   * @param window lies inside the photograph
   * @param target row-major, at least window.width x window.height; filled from index 0
   */
  void readGray(PixelRect window, float[] target);

  /**
   * Colours of a window as 0xRRGGBB, 8 bit a channel (the high byte of 16-bit photographs); grey
   * photographs repeat the value.
   *
   * @param window lies inside the photograph
   * @param target row-major, at least window.width x window.height; filled from index 0
   */
  void readRgb(PixelRect window, int[] target);
}
