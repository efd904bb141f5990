package org.diesurvey.photo;

import org.diesurvey.raster.PixelRect;

/** The check that every reading of a window starts with. */
final class Windows {
  private Windows() {}

  static void check(PixelRect window, PixelSource source, int targetLength) {
    if (window.x() < 0
        || window.y() < 0
        || window.x() > source.width() - window.width()
        || window.y() > source.height() - window.height()) {
      throw new IllegalArgumentException(
          window + " is not inside " + source.width() + " x " + source.height() + " px");
    }
    if (targetLength < (long) window.width() * window.height()) {
      throw new IllegalArgumentException(
          "target of " + targetLength + " is too short for " + window);
    }
  }
}
